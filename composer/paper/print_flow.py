"""Print order and trimming sheet in the making: one block after the other, a new page where one has no room."""

from collections.abc import Mapping

from composer.model import Project
from composer.paper.drawing import Area, Drawing
from composer.paper.figures import figures_of
from composer.paper.furniture import sheet_head
from composer.paper.primitives import Page
from composer.paper.sheet_request import SheetRequest
from composer.texts import say


class PrintFlow:
    """Pages being filled from the top.

    Attributes:
        drawing: the page under way.
        y: where the next block begins.
        share: how much wider than 190 mm the printable area is.
        scale: of the drawings of prints.
        photos: thumbnails by the key of their piece.
    """

    def __init__(
        self,
        project: Project,
        request: SheetRequest,
        area: Area,
        scale: float,
        photos: Mapping[str, bytes] | None = None,
    ) -> None:
        self.project, self.request, self.area, self.scale = project, request, area, scale
        self.photos = photos or {}
        self.figures = figures_of(project)
        self.done: list[Page] = []
        self.drawing = Drawing()
        self.share = area.width / 190.0
        self.y = 0.0
        self.start(first=True)

    def start(self, *, first: bool) -> None:
        """The head of a page."""
        note = say("{unit} · prices in {currency}", unit=self.figures.all_in, currency=self.project.currency)
        title = say("Print order, trimming sheet")
        below = "" if first else say("Continued.")
        rule = sheet_head(self.drawing, self.area, title, self.project.title, note, below)
        self.y = rule

    def finish(self) -> None:
        """Ends the page under way."""
        label = say("Prints {number}", number=len(self.done) + 1)
        heading = say("Print order, trimming sheet")
        self.done.append(self.drawing.page(self.request.size, label, (heading, label), self.area))
        self.drawing = Drawing()

    def room(self, height: float) -> None:
        """A new page unless this much is left on this one."""
        if self.y - height < self.area.bottom - 1e-6:
            self.finish()
            self.start(first=False)

    def x(self, offset: float) -> float:
        """A column's place, its offset counted on a sheet 190 mm wide."""
        return self.area.left + offset * self.share
