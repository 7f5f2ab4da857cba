"""What is up on a wall: noted by hand with its day and its holes; and every hole there is."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Any

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QHBoxLayout, QVBoxLayout, QWidget

from composer.desktop import field_look as look
from composer.desktop.cards.session import Session, try_apply
from composer.desktop.change.measured_row import MeasuredRow
from composer.desktop.change.planning import day_of, instant_of_day, now_instant
from composer.desktop.field_choices import CheckField
from composer.desktop.field_measures import LengthField, bare_unit
from composer.desktop.field_row import FieldRow, LinkButton, PushButton, Words
from composer.desktop.field_words import TextField
from composer.desktop.units_shown import number
from composer.editing.rehang_edits import add_hole, record_down, record_up, set_holes
from composer.model import HungPiece, Key, Piece, Project
from composer.texts import say, say_many


class DayField(TextField):
    """A day, as 2026-04-18; not one to come."""

    def read(self, text: str) -> str:
        """The day; empty is today."""
        words = text.strip() or day_of(now_instant())
        instant_of_day(words)
        return words


class UpPage(QWidget):
    """Pieces of the wall with a tick for what is up, and the wall's holes.

    Args:
        wall: gives the key of the wall shown.
    """

    def __init__(self, session: Session, wall: Callable[[], Key], parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session, self._wall = session, wall
        self._shown: object = None
        self.ticks: dict[Key, CheckField] = {}
        self.links: dict[int, LinkButton] = {}
        self.measured: MeasuredRow | None = None
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(look.px(10))
        self.summary = Words("", 18, semibold=True)
        column.addWidget(self.summary)
        head = QHBoxLayout()
        head.setSpacing(look.px(16))
        self.day = DayField(say("Day it was hung or taken down"))
        self.day.set_value(day_of(now_instant()))
        self.day.setFixedWidth(look.px(150))
        self._day_row = FieldRow((say("Day, of what is ticked now"), self.day))
        head.addWidget(self._day_row)
        self.all_up = PushButton(say("All of them are up"))
        self.all_up.clicked.connect(self._on_all)
        head.addWidget(self.all_up, 0, Qt.AlignmentFlag.AlignBottom)
        head.addStretch(1)
        column.addLayout(head)
        self.note = Words("", 12, "stop")
        self.note.hide()
        column.addWidget(self.note)
        across = QHBoxLayout()
        across.setSpacing(look.px(32))
        self._pieces, self._holes = QVBoxLayout(), QVBoxLayout()
        for part in (self._pieces, self._holes):
            part.setSpacing(look.px(6))
            across.addLayout(part, 1)
        self._piece_box: QWidget | None = None
        self._hole_box: QWidget | None = None
        self._pieces.addWidget(Words(say("Pieces on this wall"), 14, semibold=True))
        self._pieces.addStretch(1)
        self._holes.addWidget(Words(say("Holes in this wall"), 14, semibold=True))
        self._holes.addWidget(
            Words(say("They stay noted when pieces come down. A filled hole is not used again."), 12, "pencil")
        )
        self._holes.addWidget(self._new_hole())
        self._holes.addStretch(1)
        column.addLayout(across)
        column.addStretch(1)

    def _new_hole(self) -> QWidget:
        bare = bare_unit(self._session.project.units)
        self.hole_x = LengthField(say("From the left corner"), bare=bare, zero=True)
        self.hole_y = LengthField(say("Above the floor"), bare=bare, zero=True)
        self.hole_add = PushButton(say("Note this hole"))
        self.hole_add.clicked.connect(self._on_hole)
        box = QWidget()
        row = QHBoxLayout(box)
        row.setContentsMargins(0, 0, 0, 0)
        row.addWidget(
            FieldRow((self.hole_x.accessibleName(), self.hole_x), (self.hole_y.accessibleName(), self.hole_y)), 1
        )
        row.addWidget(self.hole_add, 0, Qt.AlignmentFlag.AlignBottom)
        return box

    # What is shown --------------------------------------------------------------------------------

    def refresh(self) -> None:
        """The wall as it is noted now."""
        project, wall = self._session.project, self._wall()
        if wall not in project.wall_by_key:
            return
        shown = (project.as_hung, project.arrangement, project.pieces, project.units, wall, look.scale())
        if shown == self._shown:
            return
        self._shown = shown
        if self.measured is not None and self.measured.key not in project.placement_by_piece:
            self.measure(self.measured.key)  # it was taken down meanwhile
        up = {one.piece: one for one in project.as_hung.items if one.wall == wall and one.down is None}
        planned = {piece.key: piece for piece, _ in project.hung_on(wall, project.arrangement)}
        pieces = sorted(
            {**planned, **{key: project.piece_by_key[key] for key in up}}.values(), key=lambda piece: piece.number
        )
        count = len(up)
        self.summary.setText(
            say_many("{count} piece is up on this wall.", "{count} pieces are up on this wall.", count)
            if count
            else say("Nothing is noted as up on this wall.")
        )
        self.all_up.setEnabled(any(key not in up for key in planned))
        self._show_pieces(pieces, up, project)
        self._show_holes(project, wall)

    def _show_pieces(self, pieces: list[Piece], up: dict[Key, HungPiece], project: Project) -> None:
        box, grid = _table(1)
        self.ticks = {}
        for row, piece in enumerate(pieces):
            words = say("{number} {name}", number=piece.number, name=piece.name)
            tick = CheckField(words)
            tick.set_value(piece.key in up)
            tick.setToolTip(
                say("Ticked: it hangs, with the day above. Its holes are noted where the arrangement has them.")
            )
            tick.committed.connect(partial(self._on_tick, piece.key))
            self.ticks[piece.key] = tick
            grid.addWidget(tick, row, 0)
            grid.addWidget(Words(self._since(up.get(piece.key), project), 12, "pencil"), row, 1)
            if piece.key in up and piece.key in project.placement_by_piece:
                link = LinkButton(say("Measure"))
                link.setAccessibleName(say("Where {piece} really hangs", piece=words))
                link.setToolTip(link.accessibleName())
                link.clicked.connect(partial(self.measure, piece.key))
                grid.addWidget(link, row, 2)
        if not pieces:
            grid.addWidget(Words(say("No piece hangs here in the arrangement shown."), 14, "pencil"), 0, 0)
        self._piece_box = _swap(self._pieces, self._piece_box, box, 1)

    @staticmethod
    def _since(record: HungPiece | None, project: Project) -> str:
        if record is None:
            return say("not up")
        day = day_of(record.when)
        if record.strips is not None:
            return say_many(
                "up since {day}, on {count} pair of strips",
                "up since {day}, on {count} pairs of strips",
                record.strips.pairs,
                day=day,
            )
        return say("up since {day}", day=day)

    def _show_holes(self, project: Project, wall: Key) -> None:
        style = project.length_style
        box, grid = _table(2)
        self.links = {}
        states = {"in-use": say("in use"), "open": say("open"), "filled": say("filled")}
        mine = [(index, one) for index, one in enumerate(project.as_hung.holes) if one.wall == wall]
        mine.sort(key=lambda pair: (("in-use", "open", "filled").index(pair[1].state), pair[1].x, pair[1].y))
        if mine:
            for column, head in enumerate((say("from left corner"), say("above floor"), say("what it is"))):
                words = Words(head, 12, "pencil")
                words.setAlignment(Qt.AlignmentFlag.AlignRight if column < 2 else Qt.AlignmentFlag.AlignLeft)
                grid.addWidget(words, 0, column)
        for row, (index, hole) in enumerate(mine, 1):
            for column, value in ((0, hole.x), (1, hole.y)):
                figure = Words(number(value, style), 14)
                figure.setWordWrap(False)
                figure.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
                grid.addWidget(figure, row, column)
            piece = None if hole.piece is None else project.piece_by_key.get(hole.piece)
            state = states[hole.state]
            words_of = state if piece is None else say("{state}, {number}", state=state, number=piece.number)
            grid.addWidget(Words(words_of, 14, "ink" if hole.state != "filled" else "pencil"), row, 2)
            if hole.state != "in-use":
                target = "filled" if hole.state == "open" else "open"
                link = LinkButton(say("Filled") if target == "filled" else say("Open again"))
                link.setAccessibleName(
                    say(
                        "Hole at {x}, {y}: {action}",
                        x=number(hole.x, style),
                        y=number(hole.y, style),
                        action=link.text(),
                    )
                )
                link.clicked.connect(partial(self._on_state, index, target))
                self.links[index] = link
                grid.addWidget(link, row, 3)
        self._hole_box = _swap(self._holes, self._hole_box, box, 2)

    def measure(self, key: Key, _: bool = False) -> None:
        """Asks where a piece really hangs; a second time closes the question."""
        old, again = self.measured, self.measured is not None and self.measured.key == key
        if old is not None:
            self._pieces.removeWidget(old)
            old.hide()
            old.deleteLater()
            self.measured = None
        if not again:
            self.measured = MeasuredRow(self._session, key)
            self.measured.said.connect(self._on_measured)
            self._pieces.insertWidget(2, self.measured)

    def _on_measured(self, refusal: str) -> None:
        self._say(refusal)
        if not refusal and self.measured is not None:
            self.measure(self.measured.key)
        self.refresh()

    # What is done ---------------------------------------------------------------------------------

    def _when(self) -> str | None:
        if not self.day.commit():
            self._say(self.day.wrong)
            return None
        return instant_of_day(self.day.value)

    def _apply(self, edit: Any) -> bool:
        refusal = try_apply(self._session, edit)
        self._say(refusal)
        if refusal:
            self._shown = None
        self.refresh()
        return not refusal

    def _say(self, words: str) -> None:
        self.note.setText(words)
        self.note.setVisible(bool(words))

    def _on_tick(self, key: Key, ticked: bool) -> None:
        when = self._when()
        if when is None:
            self.ticks[key].set_value(not ticked)
            return
        project = self._session.project
        self._apply(record_up(project, (key,), when) if ticked else record_down(project, (key,), when))

    def _on_all(self, _: bool = False) -> None:
        when, project = self._when(), self._session.project
        if when is None:
            return
        up = {one.piece for one in project.as_hung.items if one.down is None}
        keys = [piece.key for piece, _ in project.hung_on(self._wall(), project.arrangement) if piece.key not in up]
        self._apply(record_up(project, keys, when))

    def _on_state(self, index: int, state: str, _: bool = False) -> None:
        self._apply(set_holes((index,), state))

    def _on_hole(self, _: bool = False) -> None:
        if not (self.hole_x.commit() and self.hole_y.commit()):
            return
        x, y = self.hole_x.value, self.hole_y.value
        if x is None or y is None:
            self._say(say("Type how far the hole is from the left corner and how high above the floor."))
            return
        if self._apply(add_hole(self._wall(), float(x.mm), float(y.mm))):
            self.hole_x.set_value(None)
            self.hole_y.set_value(None)


def _table(stretch: int) -> tuple[QWidget, QGridLayout]:
    box = QWidget()
    grid = QGridLayout(box)
    grid.setContentsMargins(0, 0, 0, 0)
    grid.setHorizontalSpacing(look.px(14))
    grid.setVerticalSpacing(look.px(2))
    grid.setColumnStretch(stretch, 1)
    return box, grid


def _swap(column: QVBoxLayout, old: QWidget | None, new: QWidget, place: int) -> QWidget:
    if old is not None:
        column.removeWidget(old)
        old.hide()
        old.deleteLater()
    column.insertWidget(place, new)
    return new
