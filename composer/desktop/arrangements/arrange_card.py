"""The card while sketches are shown: what is arranged, patterns found and not offered, wishes as sliders."""

from __future__ import annotations

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from composer.arranging.patterns import NAMES, pattern_name
from composer.arranging.task import WIDTH_LEAST, WIDTH_MOST, Task
from composer.desktop import field_look as look
from composer.desktop.arrangements.ruler_slider import RulerSlider
from composer.desktop.cards.card import Card, Title
from composer.desktop.field_row import LinkButton, Words
from composer.desktop.units_shown import number
from composer.texts import say, say_many
from composer.units import MM_PER_INCH

GAP_LEAST_MM, GAP_MOST_MM = 15, 125
ABOVE_LEAST, ABOVE_MOST = 80, 450
WIDEST_LEAST_MM = 500
PAUSE_MS = 350
"""So long a slider rests before sketches are looked for again."""


class ArrangeCard(Card):
    """Stands in the card's place while the strip is open.

    Signals:
        gap_wanted, above_wanted: a slider's value in steps, and the gesture it belongs to.
        width_wanted: wanted width in steps.
        free_wanted: ``width`` or ``above`` is to follow the usual rule again.
        only_wanted: only the selected pieces are to be arranged.
        keep_wanted: True = the selected pieces stay; False = all may move again.
        rested: a slider has not moved for a while.
    """

    gap_wanted = Signal(int, int)
    above_wanted = Signal(int, int)
    width_wanted = Signal(int)
    free_wanted = Signal(str)
    only_wanted = Signal()
    keep_wanted = Signal(bool)
    rested = Signal()

    def __init__(self, task: Task, *, imperial: bool, wall_mm: float, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.step_mm = float(MM_PER_INCH) / 8 if imperial else 1.0
        self._style = task.style
        self._title = Title()
        self.add_top(self._title)
        self.keep, self.release = (
            LinkButton(say("Keep the selected where they are")),
            LinkButton(say("All pieces again")),
        )
        self.keep.clicked.connect(lambda _=False: self.keep_wanted.emit(True))
        self.release.clicked.connect(lambda _=False: self.keep_wanted.emit(False))
        self.only = LinkButton(say("Arrange only the selected"))
        self.only.clicked.connect(lambda _=False: self.only_wanted.emit())
        for link in (self.only, self.keep, self.release):
            self.add_padded(link)
        self.note = Words("", 12, "stop")
        self._note_box = self.add_padded(self.note)
        self._note_box.hide()
        self._add_sliders(task, wall_mm)
        self.add_padded(Words(say("Patterns"), 12, "pencil", semibold=True))
        self._patterns = QVBoxLayout()
        self._patterns.setContentsMargins(look.px(16), 0, look.px(12), look.px(12))
        self._patterns.setSpacing(4)
        box = QWidget()
        box.setLayout(self._patterns)
        self.add_top(box)
        self._rest = QTimer(self)
        self._rest.setSingleShot(True)
        self._rest.setInterval(PAUSE_MS)
        self._rest.timeout.connect(self.rested)

    # Sliders --------------------------------------------------------------------------------------

    def _slider(self, name: str, least: float, most: float, every: int, rule: str = "") -> RulerSlider:
        low, high = (round(value / self.step_mm) for value in (least, most))
        ends = (number(low * self.step_mm, self._style), number(high * self.step_mm, self._style))
        made = RulerSlider(name, low, high, step=every, ends=ends, rule=rule)
        self.add_padded(made)
        return made

    def _add_sliders(self, task: Task, wall_mm: float) -> None:
        self.gap = self._slider(say("Gap"), GAP_LEAST_MM, max(GAP_MOST_MM, round(1.5 * task.gap)), 1)
        self.gap.moved.connect(lambda value: self._on_moved(lambda: self.gap_wanted.emit(value, self.gap.gesture)))
        furniture = task.furniture
        rule = "" if furniture is None else say("⅔ to ¾ of the furniture")
        self.width_slider = self._slider(say("Width"), WIDEST_LEAST_MM, max(wall_mm, WIDEST_LEAST_MM + 100), 10, rule)
        if furniture is not None:
            self.width_slider.ruler.marks = tuple(
                round(furniture.width * share / self.step_mm) for share in (WIDTH_LEAST, WIDTH_MOST)
            )
        self.width_slider.moved.connect(lambda value: self._on_moved(lambda: self.width_wanted.emit(value)))
        self.free_width = self._free("width")
        self.above: RulerSlider | None = None
        if furniture is not None:
            self.above = self._slider(say("Above the furniture"), ABOVE_LEAST, ABOVE_MOST, 5, say("150 to 250 mm"))
            self.above.ruler.marks = tuple(round(value / self.step_mm) for value in (150, 250))
            above = self.above
            above.moved.connect(lambda value: self._on_moved(lambda: self.above_wanted.emit(value, above.gesture)))
            self.free_above = self._free("above")

    def _free(self, what: str) -> LinkButton:
        link = LinkButton(say("As is usual"))
        link.clicked.connect(lambda _=False: self.free_wanted.emit(what))
        self.add_padded(link)
        return link

    def _on_moved(self, tell: object) -> None:
        assert callable(tell)
        tell()
        self._rest.start()

    def show_wishes(self, gap_mm: float, width_mm: float | None, above_mm: float | None, found_mm: float) -> None:
        """The sliders as things are; ``found_mm`` is a usual width where none is wished."""
        self.gap.show_value(round(gap_mm / self.step_mm), self._shown(gap_mm))
        wide = found_mm if width_mm is None else width_mm
        words = say("as is usual") if width_mm is None else self._shown(width_mm)
        self.width_slider.show_value(round(wide / self.step_mm), words)
        self._show_link(self.free_width, shown=width_mm is not None)
        if self.above is not None:
            words = say("as is usual") if above_mm is None else self._shown(above_mm)
            self.above.show_value(round((200.0 if above_mm is None else above_mm) / self.step_mm), words)
            self._show_link(self.free_above, shown=above_mm is not None)

    def _shown(self, mm: float) -> str:
        from composer.units import Mm, show_length

        return show_length(Mm(mm), self._style)

    @staticmethod
    def _show_link(link: LinkButton, *, shown: bool) -> None:
        box = link.parentWidget()
        assert box is not None
        box.setVisible(shown)

    # Words ----------------------------------------------------------------------------------------

    def show_pieces(self, count: int, kept: tuple[int, ...], *, selected: bool, choosable: bool) -> None:
        """How many are arranged, and which stay."""
        pieces = say_many("{count} piece.", "{count} pieces.", count)
        if kept:
            numbers = ", ".join(map(str, kept))
            line = say_many(
                "{pieces} {numbers} stays where it is.",
                "{pieces} {numbers} stay where they are.",
                len(kept),
                pieces=pieces,
                numbers=numbers,
            )
        else:
            line = say("{pieces} None is kept in place.", pieces=pieces)
        self._title.show_title(say("Arrange"), line)
        self._show_link(self.keep, shown=selected)
        self._show_link(self.only, shown=choosable)

    def show_kept(self, *, kept: bool) -> None:
        """Whether any piece was told to stay here, beside locked ones."""
        self._show_link(self.release, shown=kept)

    def show_note(self, words: str) -> None:
        """What was refused, or nothing."""
        self.note.setText(words)
        self._note_box.setVisible(bool(words))

    def show_patterns(self, shown: dict[str, int], refused: dict[str, str]) -> None:
        """How many sketches of each pattern there are, and why others are not offered."""
        while (item := self._patterns.takeAt(0)) is not None:
            widget = item.widget()
            if widget is not None:
                widget.hide()
                widget.deleteLater()
        for pattern in NAMES:
            if pattern in shown:
                row = QWidget()
                across = QHBoxLayout(row)
                across.setContentsMargins(0, 0, 0, 0)
                across.addWidget(Words(pattern_name(pattern), 14), 1)
                count = Words(say_many("{count} shown", "{count} shown", shown[pattern]), 12, "pencil")
                count.setWordWrap(False)
                across.addWidget(count)
                self._patterns.addWidget(row)
        if refused:
            head = Words(say("Not offered here"), 12, "pencil", semibold=True)
            head.setContentsMargins(0, look.px(8), 0, 0)
            self._patterns.addWidget(head)
        for pattern in NAMES:
            if pattern in refused:
                self._patterns.addWidget(Words(pattern_name(pattern), 14))
                self._patterns.addWidget(Words(refused[pattern], 12, "pencil"))
