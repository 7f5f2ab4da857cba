"""The left column of the printing window: what is printed, on which sheets, and how few of them."""

from __future__ import annotations

from dataclasses import replace
from functools import partial
from typing import Any

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QScrollArea, QVBoxLayout, QWidget

from composer.desktop import field_look as look
from composer.desktop.field_choices import ChoiceField
from composer.desktop.field_row import FieldRow, Words
from composer.desktop.field_words import NumberField
from composer.desktop.printing.economy_button import EconomyButton
from composer.desktop.printing.ground import lay_ground
from composer.desktop.printing.proposals import ECONOMY_WORDS, KINDS, larger_than_a_sheet, sheet_words
from composer.desktop.printing.scale_fields import ScaleFields
from composer.desktop.scroll_bars import slim
from composer.desktop.settings import Settings
from composer.model import Project
from composer.paper.kept_sheets import Economy
from composer.paper.kinds import ECONOMIES, PaperOptions
from composer.paper.kinds import KINDS as BUILT_KINDS
from composer.paper.sheet_request import SheetTooSmall
from composer.paper.sheets import SIZES_MM, BadSheet, Margins, sheet_named
from composer.texts import say, say_many


class SettingsPanel(QScrollArea):
    """Kind, pieces, walls, sheet, economy, margins, scale.

    Signals:
        changed: something is to be built anew; see ``kind`` and ``options``.
    """

    changed = Signal()

    def __init__(
        self,
        project: Project,
        options: PaperOptions,
        *,
        kind: str,
        chosen: tuple[int, ...] = (),
        settings: Settings | None = None,
        printer: str = "",
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._project, self._options, self._chosen = project, options, chosen
        self.setFrameShape(QScrollArea.Shape.NoFrame)
        self.setWidgetResizable(True)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        slim(self)
        box = QWidget()
        lay_ground(box, "surface")
        self._column = QVBoxLayout(box)
        self._column.setContentsMargins(look.px(20), look.px(16), look.px(20), look.px(12))
        self._column.setSpacing(look.px(10))
        self._add_what(kind)
        self._add_economies()
        self._add_margins()
        self.scale = ScaleFields(settings, printer, imperial=project.units == "imperial")
        self.scale.corrected.connect(self._on_scale)
        self.scale.wanted.connect(partial(self.show_kind, "scale-check"))
        self._column.addWidget(self.scale)
        self._column.addStretch(1)
        self.setWidget(box)
        self._show_scale()
        self.show_kind(kind)

    @property
    def options(self) -> PaperOptions:
        """What the paper is made with; the scale check is never corrected, so that it shows the printer itself."""
        return replace(self._options, scale=(1.0, 1.0)) if self.kind.value == "scale-check" else self._options

    def _add_what(self, kind: str) -> None:
        kinds = [(key, say(words)) for key, words in KINDS if key in BUILT_KINDS]
        self.kind = ChoiceField(say("Paper"), kinds)
        self.kind.set_value(kind)
        self.kind.committed.connect(self.show_kind)
        self._column.addWidget(FieldRow((say("Paper"), self.kind)))
        pieces = sorted(self._project.pieces, key=lambda piece: piece.number)
        choices: list[tuple[Any, str]] = [(None, say("All pieces"))]
        if len(self._chosen) > 1:
            choices.append(
                (self._chosen, say_many("{count} selected piece", "{count} selected pieces", len(self._chosen)))
            )
        choices += [((piece.number,), say("{number} {name}", number=piece.number, name=piece.name)) for piece in pieces]
        self.pieces = ChoiceField(say("Pieces"), choices)
        self.pieces.committed.connect(self._on_pieces)
        self._column.addWidget(FieldRow((say("Pieces"), self.pieces)))
        walls: list[tuple[Any, str]] = [
            (None, say("All walls")),
            *((wall.key, wall.name) for wall in self._project.walls),
        ]
        self.wall = ChoiceField(say("Wall"), walls)
        self.wall.committed.connect(self._on_wall)
        row = FieldRow((say("Wall"), self.wall))
        row.setVisible(len(self._project.walls) > 1)
        self._column.addWidget(row)
        self.sheet = ChoiceField(say("Sheet"), [(name, sheet_words(name)) for name in SIZES_MM])
        self.sheet.set_value(self._options.sheet.name)
        self.sheet.committed.connect(self._on_sheet)
        self._column.addWidget(FieldRow((say("Sheet"), self.sheet)))

    def _add_economies(self) -> None:
        self._economy_title = Words(say("Economy, and its sheets"), 12, "pencil", semibold=True)
        self._column.addWidget(self._economy_title)
        self.economies: dict[str, EconomyButton] = {}
        for economy in ECONOMIES:
            title, about = ECONOMY_WORDS[economy]
            button = EconomyButton(say(title), say(about))
            button.clicked.connect(partial(self._on_economy, economy))
            self.economies[economy] = button
            self._column.addWidget(button)
        larger = larger_than_a_sheet(self._project, self._options)
        words = say_many(
            "{count} piece is larger than a sheet: Points is proposed.",
            "{count} pieces are larger than a sheet: Points is proposed.",
            len(larger),
        )
        self._why = Words(words, 12, "pencil")
        self._proposes = bool(larger) and self._options.economy == "points" and self._project.paper.economy is None
        self._column.addWidget(self._why)

    def _add_margins(self) -> None:
        self._column.addWidget(Words(say("Margins the printer leaves, and overlap, mm"), 12, "pencil", semibold=True))
        values = {**self._options.margins._asdict(), "overlap": self._options.overlap_mm}
        self.margins: dict[str, NumberField] = {}
        fields: list[tuple[str, QWidget]] = []
        for name, words in (
            ("left", say("left")), ("right", say("right")), ("top", say("top")), ("bottom", say("bottom")),
            ("overlap", say("overlap")),
        ):  # fmt: skip
            field = NumberField(words, least=0, most=60)
            field.set_value(float(values[name]))
            field.committed.connect(self._on_margins)
            self.margins[name] = field
            fields.append((words, field))
        self._margin_row = FieldRow(*fields)
        self._column.addWidget(self._margin_row)

    # What changes ---------------------------------------------------------------------------------

    def show_kind(self, kind: str) -> None:
        """Another kind of paper; only templates have economies."""
        self.kind.set_value(kind)
        templates = kind == "templates"
        self._economy_title.setVisible(templates)
        self._why.setVisible(templates and self._proposes)
        for name, button in self.economies.items():
            button.setVisible(templates)
            button.setChecked(name == self._options.economy)
        self._change()

    def show_count(self, economy: str, sheets: int | None, joins: int | None) -> None:
        """What an economy costs."""
        self.economies[economy].show_count(sheets, joins)

    def _change(self, **changes: Any) -> None:
        if changes:
            self._options = replace(self._options, **changes)
        for button in self.economies.values():
            button.show_waiting()
        self.changed.emit()

    def _on_pieces(self, numbers: tuple[int, ...] | None) -> None:
        self._change(only=None if numbers is None else frozenset(numbers))

    def _on_wall(self, key: str | None) -> None:
        self._change(walls=None if key is None else (key,))

    def _on_sheet(self, name: str) -> None:
        self._options = replace(self._options, sheet=sheet_named(name))
        self._show_scale()
        self._change()

    def _on_economy(self, name: str) -> None:
        economy: Economy = name  # type: ignore[assignment]  # the buttons are named by economy
        self._proposes = False
        self._why.hide()
        self._change(economy=economy)

    def _on_margins(self, _: object) -> None:
        try:
            values = {name: float(field.value or 0) for name, field in self.margins.items()}
            overlap = values.pop("overlap")
            self._options = replace(self._options, margins=Margins(**values), overlap_mm=overlap)
        except BadSheet as refused:
            self._margin_row.complain(str(refused))
            return
        self._show_scale()
        self._change()

    def _show_scale(self) -> None:
        try:
            self.scale.show_paper(self._options)
            self.scale.show()
        except (BadSheet, SheetTooSmall):
            self.scale.hide()  # too small for a scale check

    def _on_scale(self, across: float, up: float) -> None:
        if (across, up) != self._options.scale:
            self._change(scale=(across, up))
