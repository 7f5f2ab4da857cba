"""The project itself: title, units, currency, budget, and whose advice is shown."""

from __future__ import annotations

from typing import Any

from PySide6.QtWidgets import QVBoxLayout

from composer.desktop.cards.bound import Bindings, add_row
from composer.desktop.cards.session import Session, merge_key
from composer.desktop.field_kinds import CheckField, ChoiceField, MoneyField, TextField
from composer.desktop.field_row import Words
from composer.editing.edits import Edit
from composer.editing.project_edits import change_project_fields, set_budget
from composer.texts import say


class ProjectSection:
    """Part of the wall card."""

    def __init__(self, session: Session) -> None:
        self._session = session
        self._bindings = Bindings(session)

    def build(self, column: QVBoxLayout) -> None:
        """All fields of the project that are its own."""
        add_row(column, self._bind(TextField(say("Title")), "title", say("Title")))
        units = ChoiceField(say("Units"), [("metric", say("metric")), ("imperial", say("imperial"))])
        fractions = ChoiceField(say("Inches to"), [(8, "1/8"), (16, "1/16"), (32, "1/32")])
        add_row(
            column,
            self._bind(units, "units", say("Units")),
            self._bind(fractions, "fraction", say("Inches to")),
        )
        self._units = Words(
            say("What was typed stays as it was typed; units only decide how it is shown."), 12, "pencil"
        )
        column.addWidget(self._units)
        self._budget = MoneyField(say("Budget"), currency=self._session.project.currency)
        self._bindings.bind(
            self._budget, lambda: self._session.project.money.budget, lambda value, _: set_budget(value)
        )
        add_row(
            column,
            self._bind(CurrencyField(say("Currency")), "currency", say("Currency")),
            (say("Budget"), self._budget),
        )
        quake = CheckField(say("Earthquake advice"))
        self._bind(quake, "quake", say("Earthquake advice"))
        column.addWidget(quake)
        self.refresh()

    def _bind(self, field: Any, name: str, words: str) -> tuple[str, Any]:
        def make(value: Any, gesture: int) -> Edit:
            text = say("Project: {what}", what=words)
            return change_project_fields(text, merge_key(f"project-{name}", "", gesture), **{name: value})

        self._bindings.bind(field, lambda: getattr(self._session.project, name), make)
        return words, field

    def refresh(self) -> None:
        """Shows the project as it is now."""
        self._bindings.refresh()
        if hasattr(self, "_budget"):
            self._budget.set_suffix(self._session.project.currency)

    def sentence(self) -> str:
        """The project in one sentence."""
        project = self._session.project
        units = say("metric") if project.units == "metric" else say("imperial")
        title = project.title or say("No title yet")
        if project.money.budget is None:
            return say("{title}: {units}, {currency}.", title=title, units=units, currency=project.currency)
        return say(
            "{title}: {units}, budget {currency} {budget}.",
            title=title,
            units=units,
            currency=project.currency,
            budget=f"{project.money.budget:.2f}",
        )


class CurrencyField(TextField):
    """Three letters, in capitals."""

    def read(self, text: str) -> str | None:
        """As typed, in capitals; the project refuses what is no currency."""
        return (super().read(text) or "").upper()
