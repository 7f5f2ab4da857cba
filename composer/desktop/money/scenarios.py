"""Scenarios: how it is now and other ways to spend the money, side by side on equal terms."""

from __future__ import annotations

from collections.abc import Callable
from decimal import Decimal
from functools import partial

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QGridLayout, QVBoxLayout, QWidget

from composer.costing.items import Group
from composer.costing.scenarios import Column, break_even, groups_of
from composer.costing.shown import show_money
from composer.desktop import field_look as look
from composer.desktop.cards.session import Session, try_apply
from composer.desktop.field_choices import ChoiceField
from composer.desktop.field_row import FieldRow, LinkButton, PushButton, Words
from composer.desktop.field_words import MoneyField, TextField
from composer.desktop.money.reckoning import Sums
from composer.editing.money_edits import delete_scenario, keep_scenario, take_scenario
from composer.model import Choice, Project
from composer.texts import N_, say

GROUP_WORDS: dict[Group, str] = {
    "print": N_("Prints"),
    "frame": N_("Frames"),
    "board": N_("Mat boards"),
    "small": N_("Bumpers, wipes, tape"),
    "strips": N_("Strips"),
    "fixing": N_("Hooks, nails, anchors"),
    "glazing": N_("Glazing"),
    "paper": N_("Paper for the templates"),
    "extra": N_("Whatever else"),
}


class ScenarioTable(QWidget):
    """A column a scenario: kinds of shops, total, difference, up to which price its frames pay off."""

    def __init__(self, session: Session, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session = session
        self._column = QVBoxLayout(self)
        self._column.setContentsMargins(0, 0, 0, 0)
        self._column.setSpacing(look.px(4))
        self.note = Words("", 12, "pencil")
        self._column.addWidget(self.note)
        self._table: QWidget | None = None
        self._shown: tuple[Column, ...] | None = None
        self.links: dict[str, LinkButton] = {}

    def show_sums(self, sums: Sums) -> None:
        """Other sums."""
        if sums.columns is None:
            self._clear()
            self._say(say("A scenario speaks of a piece that is gone. Delete it, or undo."), "warn")
            self._links_alone(sums.project)
            return
        if not sums.columns:
            self._clear()
            self._say(say("None kept yet. A scenario changes nothing until you take it."))
            return
        if sums.columns == self._shown:
            return
        self._say("")
        self._build(sums.columns, sums.project.currency)
        self._shown = sums.columns

    def _say(self, words: str, shade: str = "pencil") -> None:
        self.note.set_shade(shade)  # type: ignore[arg-type]  # one of the shades
        self.note.setText(words)
        self.note.setVisible(bool(words))

    def _clear(self) -> None:
        self._shown = None
        self.links = {}
        if self._table is not None:
            self._table.hide()
            self._table.deleteLater()
            self._table = None

    def _new_table(self) -> QGridLayout:
        self._clear()
        self._table = QWidget()
        grid = QGridLayout(self._table)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setHorizontalSpacing(look.px(12))
        grid.setVerticalSpacing(look.px(2))
        grid.setColumnStretch(0, 1)
        self._column.addWidget(self._table)
        return grid

    def _build(self, columns: tuple[Column, ...], currency: str) -> None:
        grid = self._new_table()
        for place, column in enumerate(columns, 1):
            name = say("as it is") if column.scenario is None else column.scenario.name
            head = Words(name, 12, semibold=True)
            head.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignBottom)
            head.setMinimumWidth(look.px(64))
            grid.addWidget(head, 0, place)
        row = 1
        for group in groups_of(columns):
            self._figures(grid, row, say(GROUP_WORDS[group]), [one.of(group) for one in columns], currency)
            row += 1
        self._figures(grid, row, say("To pay"), [one.costs.total for one in columns], currency, strong=True)
        self._figures(
            grid,
            row + 1,
            say("More or less than as it is"),
            [None, *(one.difference for one in columns[1:])],
            currency,
        )
        even = [None, *(break_even(one.costs, columns[0].costs) for one in columns[1:])]
        if any(price is not None for price in even):
            words = [None if price is None or price > 0 else say("never") for price in even]
            self._figures(grid, row + 2, say("Its frames pay off up to, each"), even, currency, instead=words)
        self._buttons(grid, row + 3, [one.scenario.name for one in columns if one.scenario is not None])

    def _figures(
        self,
        grid: QGridLayout,
        row: int,
        words: str,
        figures: list[Decimal | None],
        currency: str,
        *,
        strong: bool = False,
        instead: list[str | None] | None = None,
    ) -> None:
        grid.addWidget(Words(words, 14 if strong else 12, "ink" if strong else "pencil", semibold=strong), row, 0)
        for place, value in enumerate(figures, 1):
            text = "" if value is None else show_money(value, currency)
            text = (instead[place - 1] if instead else None) or text
            cell = Words(text, 14, semibold=strong)
            cell.setWordWrap(False)
            cell.setAlignment(Qt.AlignmentFlag.AlignRight | Qt.AlignmentFlag.AlignVCenter)
            grid.addWidget(cell, row, place)

    def _buttons(self, grid: QGridLayout, row: int, names: list[str]) -> None:
        for place, name in enumerate(names, 2):
            take, delete = LinkButton(say("Take")), LinkButton(say("Delete"))
            take.setAccessibleName(say("Take the scenario “{name}”", name=name))
            delete.setAccessibleName(say("Delete the scenario “{name}”", name=name))
            take.clicked.connect(partial(self._run, name, True))
            delete.clicked.connect(partial(self._run, name, False))
            grid.addWidget(take, row, place, Qt.AlignmentFlag.AlignRight)
            grid.addWidget(delete, row + 1, place, Qt.AlignmentFlag.AlignRight)
            self.links[f"take {name}"], self.links[f"delete {name}"] = take, delete

    def _links_alone(self, project: Project) -> None:
        """Of scenarios that cannot be added up: only what gets rid of them."""
        grid = self._new_table()
        for row, scenario in enumerate(project.money.scenarios):
            grid.addWidget(Words(scenario.name, 14), row, 0)
            delete = LinkButton(say("Delete"))
            delete.setAccessibleName(say("Delete the scenario “{name}”", name=scenario.name))
            delete.clicked.connect(partial(self._run, scenario.name, False))
            grid.addWidget(delete, row, 1)
            self.links[f"delete {scenario.name}"] = delete

    def _run(self, name: str, take: bool, _: bool = False) -> None:
        edit = take_scenario(self._session.project, name) if take else delete_scenario(name)
        refusal = try_apply(self._session, edit)
        if refusal:
            self._say(refusal, "stop")


class NewScenario(QWidget):
    """A scenario is kept under a name: the ticked ways, other frames, other glazing, no mats.

    Args:
        ticked: gives the choices of the ways that are ticked.
    """

    def __init__(
        self, session: Session, ticked: Callable[[], tuple[Choice, ...]], parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self._session, self._ticked = session, ticked
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(look.px(6))
        self.name = TextField(say("Name of the scenario"))
        self.frames = MoneyField(say("Every frame still to buy, each"), currency=session.project.currency)
        column.addWidget(FieldRow((say("Name of the scenario"), self.name), (say("Frames at, each"), self.frames)))
        self.glazing = ChoiceField(
            say("Glazing of all"),
            [(None, say("as it is")), ("glass", say("glass")), ("acrylic", say("acrylic"))],
        )
        self.mats = ChoiceField(say("Mats of all"), [(None, say("as they are")), ("none", say("none"))])
        column.addWidget(FieldRow((say("Glazing of all"), self.glazing), (say("Mats of all"), self.mats)))
        self.what = Words("", 12, "pencil")
        column.addWidget(self.what)
        self.keep = PushButton(say("Keep as a scenario"))
        self.keep.clicked.connect(self._on_keep)
        column.addWidget(self.keep, 0, Qt.AlignmentFlag.AlignLeft)
        for field in (self.frames, self.glazing, self.mats):
            field.committed.connect(lambda _=None: self.refresh())
        self.refresh()

    @property
    def choices(self) -> tuple[Choice, ...]:
        """What it would change; later choices go over earlier ones of the same thing."""
        pieces = self._session.project.pieces
        found = list(self._ticked())
        price = self.frames.typed()
        if price is not None:
            found += [
                Choice(of="frame-price", piece=piece.key, value=f"{price:.2f}") for piece in pieces if not piece.owned
            ]
        if self.glazing.value is not None:
            found += [
                Choice(of="glazing", piece=piece.key, value=self.glazing.value)
                for piece in pieces
                if piece.frame.glazing not in (None, "none", self.glazing.value)
            ]
        if self.mats.value is not None:
            found += [Choice(of="mat", piece=piece.key, value="none") for piece in pieces if piece.mat is not None]
        return tuple({(one.of, one.piece): one for one in found}.values())

    def refresh(self) -> None:
        """Says what it would be made of."""
        count = len(self._ticked())
        self.what.set_shade("pencil")
        self.what.setText(
            say("With the ways ticked above.")
            if count
            else say("Tick ways above, or say here what would be different.")
        )
        self.frames.set_suffix(self._session.project.currency)

    def _on_keep(self, _: bool = False) -> None:
        self.frames.commit()
        self.name.commit()
        name, choices = (self.name.value or "").strip(), self.choices
        if not choices:
            self._refuse(say("Nothing is different yet: tick a way, or choose what changes."))
            return
        if not name:
            self._refuse(say("A scenario needs a name, such as “second-hand”."))
            return
        refusal = try_apply(self._session, keep_scenario(name, choices))
        if refusal:
            self._refuse(refusal)
            return
        self.name.set_value("")
        self.frames.set_value(None)
        self.glazing.set_value(None)
        self.mats.set_value(None)
        self.refresh()

    def _refuse(self, sentence: str) -> None:
        self.what.set_shade("stop")
        self.what.setText(sentence)
