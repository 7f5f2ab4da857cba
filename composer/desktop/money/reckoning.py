"""What the open project costs, kept up to date away from the window's thread."""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QObject, QTimer, Signal

from composer.costing.alternatives import Alternative
from composer.costing.costs import Costs
from composer.costing.items import PAPER, item_key
from composer.costing.left_over import StillHangs
from composer.costing.scenarios import Column
from composer.desktop.money.latest_job import LatestJob
from composer.desktop.open_project import Change, OpenProject
from composer.model import Project

QUIET_MS = 200
"""So long after the last change nothing has moved: now it is worth adding up."""

MOST_WAYS = 8

MOST_BY_ITSELF = 250
"""With more pieces nothing is added up until somebody asks: laying out boards alone takes more than half a second."""


@dataclass(frozen=True, slots=True)
class Sums:
    """What one project value costs.

    Attributes:
        project: the value it is about.
        rest: what is left over would still hang.
        columns: scenarios side by side; None where one speaks of a piece that is gone.
    """

    project: Project
    costs: Costs
    rest: tuple[StillHangs, ...]
    columns: tuple[Column, ...] | None


@dataclass(frozen=True, slots=True)
class Ways:
    """Ways to pay less for one project value."""

    project: Project
    found: tuple[Alternative, ...]


class Reckoning(QObject):
    """Adds up after each change; looks for ways to pay less only while somebody reads them.

    Signals:
        summed: carries :class:`Sums`.
        ways_found: carries :class:`Ways`, or None while they are looked for.
        outdated: so many pieces changed that they are only added up again when somebody asks.
    """

    outdated = Signal()
    summed = Signal(object)
    ways_found = Signal(object)

    def __init__(self, opened: OpenProject, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._opened = opened
        self.sums: Sums | None = None
        self.ways: Ways | None = None
        self._looks = False
        self.job = LatestJob(self)
        self.job.answered.connect(self._on_answer)
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(QUIET_MS)
        self._timer.timeout.connect(self.reckon)
        opened.project_changed.connect(self._on_change)

    def start(self) -> None:
        """Begins; before, nothing is added up."""
        if len(self._opened.project.pieces) <= MOST_BY_ITSELF:
            self._timer.start()

    def look_for_ways(self, *, wanted: bool) -> None:
        """Whether ways to pay less are to be looked for."""
        self._looks = wanted
        if not wanted:
            self.job.forget("ways")
        elif self.ways is None or self.ways.project is not self._opened.project:
            self._ask_ways()

    def reckon(self) -> None:
        """Adds up now."""
        self._timer.stop()
        project = self._opened.project
        if self.sums is None or self.sums.project is not project:
            self.job.ask("sums", lambda: sums_of(project))
        if self._looks and (self.ways is None or self.ways.project is not project):
            self._ask_ways()

    def wait(self) -> None:
        """Until everything is added up and found."""
        if self._timer.isActive():
            self.reckon()
        self.job.wait()

    def stop(self) -> None:
        """For good, before the window goes."""
        self._timer.stop()
        self.job.stop()

    def _ask_ways(self) -> None:
        project = self._opened.project
        self.ways_found.emit(None)
        self.job.ask("ways", lambda: ways_of(project))

    def _on_change(self, _before: Project, after: Project, _change: Change) -> None:
        if after is not self._opened.project:
            return  # a preview costs nothing
        if self._looks or len(after.pieces) <= MOST_BY_ITSELF:
            self._timer.start()
        else:
            self._timer.stop()
            self.job.forget("sums")
            self.outdated.emit()

    def _on_answer(self, kind: str, answer: object) -> None:
        if isinstance(answer, Sums) and answer.project is self._opened.project:
            self.sums = answer
            self.summed.emit(answer)
        elif kind == "ways" and (answer is None or isinstance(answer, Ways)):
            self.ways = answer or Ways(self._opened.project, ())
            if self.ways.project is self._opened.project:
                self.ways_found.emit(self.ways)


def sums_of(project: Project) -> Sums:
    """Adds everything up, as the shopping list does: with the templates' paper where that has a price."""
    from composer.costing.choices import BadChoice
    from composer.costing.costs import costs_of
    from composer.costing.left_over import still_hangs
    from composer.costing.scenarios import side_by_side

    costs = costs_of(project, template_sheets=_sheets(project))
    try:
        columns: tuple[Column, ...] | None = side_by_side(project) if project.money.scenarios else ()
    except BadChoice:
        columns = None
    return Sums(project, costs, still_hangs(project, costs), columns)


def _sheets(project: Project) -> int | None:
    named = [price.item for price in project.money.prices] + [one.item for one in project.money.in_drawer]
    if item_key(PAPER) not in {item_key(item) for item in named}:
        return None
    from composer.paper.kinds import PaperOptions
    from composer.paper.sheet_request import SheetTooSmall
    from composer.paper.sheets import BadSheet
    from composer.paper.templates import templates

    try:
        return len(templates(project, project.arrangement, PaperOptions.usual(project).full_size())[0])
    except (BadSheet, SheetTooSmall):
        return None


def ways_of(project: Project) -> Ways:
    """Ways to pay less, the best first."""
    from composer.costing.alternatives import alternatives

    return Ways(project, alternatives(project, most=MOST_WAYS))
