"""The rehang plan: to which arrangement, now and then, the offered shift, rows, steps, what to buy, what to know."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QVBoxLayout, QWidget

from composer.costing.shown import show_numbers
from composer.desktop import field_look as look
from composer.desktop.change.plan_drawing import PlanDrawing, Sign
from composer.desktop.change.plan_rows import Grid, ToBuy, WorkRows
from composer.desktop.change.planning import EMPTY_WALL, Planned
from composer.desktop.field_choices import ChoiceField
from composer.desktop.field_row import Columns, FieldRow, LinkButton, PushButton, Words
from composer.model import Project
from composer.paper.figures import Figures
from composer.texts import say, say_many


class PlanPage(QWidget):
    """Everything about one plan.

    Signals:
        asked: another target was chosen.
        wanted: what a button or link asks for: ``copy``, ``shift``, ``places``.
        piece_chosen: a piece was clicked in the drawing.
    """

    asked = Signal(object)
    wanted = Signal(str)
    piece_chosen = Signal(str)

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(look.px(10))
        self.target = ChoiceField(say("From what is up to"), [])
        self.target.committed.connect(self.asked)
        self.copy = LinkButton(say("Plan it in a copy"))
        self.copy.setToolTip(say("Copies the arrangement shown, so that the present one stays as it is."))
        self.copy.clicked.connect(lambda _=False: self.wanted.emit("copy"))
        head = QHBoxLayout()
        head.setSpacing(look.px(16))
        head.addWidget(FieldRow((say("From what is up to"), self.target)))
        head.addWidget(self.copy, 0, Qt.AlignmentFlag.AlignBottom)
        head.addStretch(1)
        column.addLayout(head)
        self.summary = Words("", 18, semibold=True)
        column.addWidget(self.summary)
        self.legend = QWidget()
        self._legend = Columns(self.legend, gap=look.px(16))
        column.addWidget(self.legend)
        self.offers: dict[str, tuple[QWidget, Words, PushButton]] = {}
        for name, words in (("shift", say("Shift it")), ("places", say("Take these places"))):
            column.addWidget(self._offer(name, words))
        self.drawing = PlanDrawing()
        self.drawing.chosen.connect(self.piece_chosen)
        column.addWidget(self.drawing)
        self.rows = WorkRows()
        column.addWidget(self.rows)
        below = QHBoxLayout()
        below.setSpacing(look.px(28))
        self.steps = Grid(1)
        self.buy = ToBuy()
        self.buy_title = Words(say("To buy for the change"), 14, semibold=True)
        for title, body in ((Words(say("In this order"), 14, semibold=True), self.steps), (self.buy_title, self.buy)):
            part = QVBoxLayout()
            part.setSpacing(look.px(6))
            part.addWidget(title)
            part.addWidget(body)
            part.addStretch(1)
            below.addLayout(part, 1)
        column.addLayout(below)
        self.notes_title = Words(say("What to know"), 14, semibold=True)
        self.notes = Words("", 14)
        column.addWidget(self.notes_title)
        column.addWidget(self.notes)
        column.addStretch(1)
        self._parts: list[QWidget] = [self.legend, self.drawing, self.rows, self.steps]

    def _offer(self, name: str, words: str) -> QWidget:
        box = QWidget()
        row = QHBoxLayout(box)
        row.setContentsMargins(0, 0, 0, 0)
        row.setSpacing(look.px(12))
        sentence, button = Words("", 14), PushButton(words)
        button.clicked.connect(lambda _=False: self.wanted.emit(name))
        row.addWidget(sentence, 1)
        row.addWidget(button)
        box.hide()
        self.offers[name] = (box, sentence, button)
        return box

    def show_targets(self, project: Project, chosen: str) -> None:
        """Arrangements to go to, and the empty wall."""
        choices = [(one.key, one.name) for one in project.arrangements]
        self.target.set_choices([*choices, (EMPTY_WALL, say("the empty wall"))])
        self.target.set_value(chosen)

    def show_waiting(self) -> None:
        """The plan is being made."""
        self.summary.setText(say("One moment …"))

    def show_plan(self, planned: Planned | None) -> None:
        """Another plan; None = it could not be made."""
        if planned is None:
            self.summary.setText(say("This plan cannot be made just now."))
            return
        plan = planned.plan
        self.summary.setText(_summary(planned))
        self._show_legend(planned)
        self._show_offers(planned)
        busy = bool(plan.changes) or bool(plan.fill)
        for part in self._parts:
            part.setVisible(busy)
        self.drawing.show_plan(planned)
        self.rows.show_plan(planned)
        self.steps.clear()
        for place, step in enumerate(() if plan.nothing_to_do else planned.steps):
            self.steps.figures(place, 0, [str(place + 1)])
            self.steps.words(place, 1, step)
        self.buy.setVisible(self.buy.show_plan(planned))
        self.buy_title.setVisible(self.buy.isVisibleTo(self))
        self.notes.setText("\n".join(planned.notes))
        for widget in (self.notes, self.notes_title):
            widget.setVisible(bool(planned.notes))

    def _show_legend(self, planned: Planned) -> None:
        plan = planned.plan
        while (item := self._legend.takeAt(0)) is not None:
            if (widget := item.widget()) is not None:
                widget.hide()
                widget.deleteLater()
        for kind, count, words in (
            ("arrow", len(plan.of("move")), say_many("{count} moves", "{count} move", len(plan.of("move")))),
            ("minus", len(plan.of("down")), say_many("{count} comes down", "{count} come down", len(plan.of("down")))),
            ("plus", len(plan.of("up")), say_many("{count} goes up", "{count} go up", len(plan.of("up")))),
            (
                "again",
                plan.used_again,
                say_many("{count} hole serves again", "{count} holes serve again", plan.used_again),
            ),
            ("fill", len(plan.fill), say_many("{count} hole to fill", "{count} holes to fill", len(plan.fill))),
            ("new", plan.new_holes, say_many("{count} new hole", "{count} new holes", plan.new_holes)),
        ):
            if not count:
                continue
            entry = QWidget()
            row = QHBoxLayout(entry)
            row.setContentsMargins(0, 0, 0, 0)
            row.setSpacing(look.px(4))
            row.addWidget(Sign(kind))
            label = Words(words, 14)
            label.setWordWrap(False)
            row.addWidget(label)
            self._legend.addWidget(entry)
            entry.show()

    def _show_offers(self, planned: Planned) -> None:
        plan, offer = planned.plan, planned.offer
        box, sentence, _ = self.offers["shift"]
        box.setVisible(offer is not None)
        if offer is not None:
            sentence.setText(
                say_many(
                    "The whole arrangement shifted {shift}: {count} old hole more serves.",
                    "The whole arrangement shifted {shift}: {count} old holes more serve.",
                    offer.saves,
                    shift=_shift(offer.shift, planned.figures),
                )
            )
        off = [one for one in plan.changes if one.then is not None and max(map(abs, one.off)) >= 0.05]
        box, sentence, _ = self.offers["places"]
        box.setVisible(bool(off))
        sentence.setText(
            say_many(
                "{pieces} hangs up to {most} off its drawn place, so that an old hole serves.",
                "{pieces} hang up to {most} off their drawn places, so that old holes serve.",
                len(off),
                pieces=show_numbers(one.number for one in off),
                most=planned.figures.full(max((max(map(abs, one.off)) for one in off), default=0.0)),
            )
        )


def _shift(shift: tuple[float, float], figures: Figures) -> str:
    """A shift across and up, each with its unit."""
    across, up = shift
    parts = []
    if abs(across) >= 0.05:
        far = figures.full(abs(across))
        parts.append(say("{far} to the right", far=far) if across > 0 else say("{far} to the left", far=far))
    if abs(up) >= 0.05:
        far = figures.full(abs(up))
        parts.append(say("{far} up", far=far) if up > 0 else say("{far} down", far=far))
    return ", ".join(parts)


def _summary(planned: Planned) -> str:
    plan = planned.plan
    before = sum(change.action != "up" for change in plan.changes)
    if not before and not plan.fill:
        return say("Nothing is noted as up on this wall. Note it under “What is up”.")
    if plan.nothing_to_do:
        return say("Everything hangs as it shall. Nothing is to be done.")
    if plan.empties:
        return say_many(
            "To the empty wall: {count} piece comes down.", "To the empty wall: {count} pieces come down.", before
        )
    after = sum(change.action != "down" for change in plan.changes)
    stay = len(plan.of("stay"))
    return say_many(
        "From {before} to {after} pieces; {count} stays untouched.",
        "From {before} to {after} pieces; {count} stay untouched.",
        stay,
        before=before,
        after=after,
    )
