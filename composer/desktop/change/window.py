"""The window of the next change: what is up on a wall, and the rehang plan from there.

It may stay open beside the work and follows the project; every change in it is a step of the
project's own history.
"""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtGui import QCloseEvent, QShowEvent
from PySide6.QtWidgets import QDialog, QHBoxLayout, QScrollArea, QStackedWidget, QVBoxLayout, QWidget

from composer.costing.shown import show_numbers
from composer.desktop import field_look as look
from composer.desktop.cards.session import try_apply
from composer.desktop.change.plan_page import PlanPage
from composer.desktop.change.planning import EMPTY_WALL, Planned, now_instant, planned, usual_target
from composer.desktop.change.up_page import UpPage
from composer.desktop.field_choices import ChoiceField
from composer.desktop.field_row import FieldRow, PushButton, Segments, Words
from composer.desktop.money.latest_job import LatestJob
from composer.desktop.open_project import Change, OpenProject
from composer.desktop.printing.ground import lay_ground
from composer.desktop.scroll_bars import slim
from composer.desktop.theme import theme
from composer.desktop.window_sizes import open_at
from composer.editing.edits import Edit
from composer.model import Key, Project
from composer.texts import say

PLAN, UP = "plan", "up"


class ChangeWindow(QDialog):
    """What is up, and what to do to get to another arrangement.

    Args:
        opened: the project.
        wall: whose change, at first.

    Signals:
        paper_wanted: kind of paper, target, numbers of the pieces.
        piece_chosen: a piece is to be shown in the room.
    """

    paper_wanted = Signal(str, str, object)
    piece_chosen = Signal(str)

    def __init__(self, opened: OpenProject, wall: Key, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._opened, self.wall = opened, wall
        self.target = usual_target(opened.project, wall)
        self.planned: Planned | None = None
        self.job = LatestJob(self)
        self.job.answered.connect(self._on_plan)
        self.setWindowTitle(say("Next change"))
        self.setMinimumSize(look.px(620), look.px(380))
        self._lay_out()
        open_at(self, look.px(1080), look.px(780))
        opened.project_changed.connect(self._on_change)
        theme().changed.connect(self._on_theme)
        up = any(one.wall == wall and one.down is None for one in opened.project.as_hung.items)
        self.show_page(PLAN if up else UP)
        self.refresh()

    # Layout ---------------------------------------------------------------------------------------

    def _lay_out(self) -> None:
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        head = QWidget()
        row = QHBoxLayout(head)
        row.setContentsMargins(look.px(20), look.px(12), look.px(20), look.px(8))
        row.setSpacing(look.px(20))
        self.pages = Segments(say("Page"), [(UP, say("What is up")), (PLAN, say("Rehang plan"))])
        self.pages.committed.connect(self.show_page)
        row.addWidget(self.pages, 0, Qt.AlignmentFlag.AlignBottom)
        self.walls = ChoiceField(say("Wall"), [])
        self.walls.committed.connect(self.show_wall)
        self._wall_row = FieldRow((say("Wall"), self.walls))
        row.addWidget(self._wall_row)
        row.addStretch(1)
        column.addWidget(head)
        self.up = UpPage(self._opened, lambda: self.wall)
        self.plan = PlanPage()
        self.plan.asked.connect(self.show_target)
        self.plan.wanted.connect(self._on_wanted)
        self.plan.piece_chosen.connect(self.piece_chosen)
        self._stack = QStackedWidget()
        self._areas: list[QWidget] = []
        for page in (self.up, self.plan):
            area = QScrollArea()
            area.setFrameShape(QScrollArea.Shape.NoFrame)
            area.setWidgetResizable(True)
            area.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
            slim(area)
            inside = QWidget()
            box = QVBoxLayout(inside)
            box.setContentsMargins(look.px(20), look.px(8), look.px(20), look.px(16))
            box.addWidget(page)
            area.setWidget(inside)
            self._areas.append(inside)
            self._stack.addWidget(area)
        column.addWidget(self._stack, 1)
        column.addWidget(self._foot())
        self._lay_grounds()

    def _foot(self) -> QWidget:
        foot = QWidget()
        row = QHBoxLayout(foot)
        row.setContentsMargins(look.px(20), look.px(8), look.px(20), look.px(8))
        self.note = Words("", 12, "pencil")
        row.addWidget(self.note, 1)
        self.record = PushButton(say("Record as done"))
        self.record.setToolTip(say("Notes what came down, what is up now and what was filled, as one step."))
        self.record.clicked.connect(self._on_done)
        self.templates = PushButton(say("Templates"))
        self.templates.setToolTip(say("Only of pieces with new holes or new strips."))
        self.templates.clicked.connect(self._on_templates)
        self.print_plan = PushButton(say("Print the plan"))
        self.print_plan.clicked.connect(self._on_print)
        close = PushButton(say("Close"))
        close.clicked.connect(self.close)
        for button in (self.record, self.templates, self.print_plan, close):
            row.addWidget(button)
        return foot

    def _lay_grounds(self) -> None:
        for widget in (self, *self._areas):
            lay_ground(widget, "surface")

    def _on_theme(self) -> None:
        self._lay_grounds()
        self.up.refresh()
        if self.planned is not None:
            self.plan.show_plan(self.planned)

    # What is shown --------------------------------------------------------------------------------

    def show_page(self, page: object) -> None:
        """What is up, or the plan."""
        self.pages.set_value(page)
        self._stack.setCurrentIndex(0 if page == UP else 1)
        for button in (self.record, self.templates, self.print_plan):
            button.setVisible(page == PLAN)
        self._say("")

    def show_wall(self, key: Key) -> None:
        """Another wall."""
        self.wall = key
        self.target = usual_target(self._opened.project, key)
        self.refresh()

    def show_target(self, target: str) -> None:
        """Another arrangement to go to, or the empty wall."""
        self.target = target
        self.refresh()

    def refresh(self) -> None:
        """Everything as the project is now; the plan follows when it is made."""
        project = self._opened.project
        if self.wall not in project.wall_by_key:
            self.wall = project.walls[0].key
        if self.target != EMPTY_WALL and self.target not in project.arrangement_by_key:
            self.target = project.current_arrangement
        self.walls.set_choices([(wall.key, wall.name) for wall in project.walls])
        self.walls.set_value(self.wall)
        self._wall_row.setVisible(len(project.walls) > 1)
        self.up.refresh()
        self.plan.show_targets(project, self.target)
        if self.planned is None or self.planned.project is not project or self._asked != (self.wall, self.target):
            self._asked = (self.wall, self.target)
            wall, target = self._asked
            self.plan.show_waiting()
            self.job.ask("plan", lambda: planned(project, wall, target))
        self._enable()

    _asked: tuple[Key, str] = ("", "")

    def _on_change(self, _before: Project, after: Project, _change: Change) -> None:
        if after is self._opened.project:
            self.planned = None
            if self.isVisible():
                self.refresh()

    def _on_plan(self, _kind: str, answer: object) -> None:
        self.planned = answer if isinstance(answer, Planned) else None
        self.plan.show_plan(self.planned)
        self._enable()

    def _enable(self) -> None:
        plan = None if self.planned is None else self.planned.plan
        work = plan is not None and not plan.nothing_to_do
        self.record.setEnabled(work)
        self.print_plan.setEnabled(plan is not None and bool(plan.changes or plan.fill))
        numbers = () if plan is None else plan.templates_for
        self.templates.setEnabled(bool(numbers))
        self.templates.setText(
            say("Templates of {numbers}", numbers=show_numbers(numbers)) if numbers else say("Templates")
        )
        self.templates.setAccessibleName(self.templates.text())
        self.templates.updateGeometry()

    def wait(self) -> None:
        """Until the plan asked for is shown."""
        self.job.wait()

    # What is done ---------------------------------------------------------------------------------

    def _say(self, words: str, shade: str = "pencil") -> None:
        self.note.set_shade(shade)  # type: ignore[arg-type]  # one of the shades
        self.note.setText(words)

    def _apply(self, edit: Edit, then: str = "") -> None:
        refusal = try_apply(self._opened, edit)
        self._say(refusal or then, "stop" if refusal else "ok")

    def _on_wanted(self, what: str) -> None:
        from composer.editing.project_edits import add_arrangement
        from composer.editing.rehang_edits import take_places

        project, shown = self._opened.project, self.planned
        if what == "copy":
            names = {one.name for one in project.arrangements}
            name, count = say("{name}, next", name=project.arrangement.name), 2
            while name in names:
                name, count = say("{name}, next {number}", name=project.arrangement.name, number=count), count + 1
            self._apply(add_arrangement(name, copy_of=project.current_arrangement))
            self.show_target(self._opened.project.current_arrangement)
            self._say(say("“{name}” is shown in the room: hang there what shall hang.", name=name))
        elif shown is not None and shown.target != EMPTY_WALL:
            plan = shown.offer.plan if what == "shift" and shown.offer is not None else shown.plan
            self._apply(take_places(project, shown.target, plan))

    def _on_done(self, _: bool = False) -> None:
        from composer.editing.rehang_whole import carry_out_all

        shown = self.planned
        if shown is None:
            return
        edit = carry_out_all(shown.target or None, shown.plan, now_instant())
        self._apply(edit, say("Recorded. Undo takes it back."))

    def _on_print(self, _: bool = False) -> None:
        self.paper_wanted.emit("rehang", self.target, ())

    def _on_templates(self, _: bool = False) -> None:
        if self.planned is not None:
            self.paper_wanted.emit("templates", self.target, self.planned.plan.templates_for)

    # Events ---------------------------------------------------------------------------------------

    def showEvent(self, event: QShowEvent) -> None:
        """What changed meanwhile."""
        super().showEvent(event)
        self.refresh()

    def closeEvent(self, event: QCloseEvent) -> None:
        """What is being typed is taken first."""
        focused = self.focusWidget()
        if focused is not None:
            focused.clearFocus()
        super().closeEvent(event)

    def stop(self) -> None:
        """For good, before the main window goes."""
        self.job.stop()
