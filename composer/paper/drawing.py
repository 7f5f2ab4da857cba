"""A sheet in the making: collects items and sees to it that text is printable and has room."""

from composer.geometry.rectangle import Rectangle
from composer.paper.primitives import (
    BLACK,
    MM_PER_PT,
    SOLID,
    THIN_PT,
    Align,
    Box,
    Circle,
    Dash,
    Item,
    Line,
    Page,
    Point,
    Polygon,
    Text,
    Turn,
    Weight,
)
from composer.paper.type_metrics import fitting_size, printable, shortened, text_width_mm, wrap

LEADING = 1.25
"""Distance of two base lines as a multiple of the size."""

LEAST_PT = 7.0
"""Text is shortened rather than set smaller than this."""


Area = Rectangle
"""The printable rectangle of a page, mm."""


class Drawing:
    """Items of one page, in the order in which they are drawn."""

    def __init__(self) -> None:
        self.items: list[Item] = []

    def add(self, *items: Item) -> None:
        """Adds finished items."""
        self.items += items

    def line(
        self,
        x1: float,
        y1: float,
        x2: float,
        y2: float,
        width_pt: float = THIN_PT,
        grey: float = BLACK,
        dash: Dash = SOLID,
    ) -> None:
        """Adds a stroke."""
        self.items.append(Line(x1, y1, x2, y2, width_pt, grey, dash))

    def box(
        self,
        left: float,
        bottom: float,
        width: float,
        height: float,
        width_pt: float | None = THIN_PT,
        grey: float = BLACK,
        fill_grey: float | None = None,
        dash: Dash = SOLID,
    ) -> None:
        """Adds a rectangle."""
        self.items.append(Box(left, bottom, width, height, width_pt, grey, fill_grey, dash))

    def circle(
        self,
        x: float,
        y: float,
        radius: float,
        width_pt: float | None = THIN_PT,
        grey: float = BLACK,
        fill_grey: float | None = None,
    ) -> None:
        """Adds a circle."""
        self.items.append(Circle(x, y, radius, width_pt, grey, fill_grey))

    def filled(self, *points: Point) -> None:
        """Adds a black shape."""
        self.items.append(Polygon(points, fill_grey=BLACK))

    def text(
        self,
        x: float,
        y: float,
        text: str,
        size_pt: float = 10.0,
        weight: Weight = "regular",
        align: Align = "left",
        turn: Turn = 0,
        grey: float = BLACK,
        within: float | None = None,
    ) -> float:
        """Adds one line of text and says how wide it became, mm.

        With ``within`` the text is set smaller, at last shortened, to be no wider than that.
        """
        text = printable(text)
        if within is not None:
            size_pt = fitting_size(text, within, size_pt, weight, LEAST_PT)
            text = shortened(text, within + 1e-6, size_pt, weight)
        if text:
            self.items.append(Text(x, y, text, size_pt, weight, align, turn, grey))
        return text_width_mm(text, size_pt, weight)

    def paragraph(
        self,
        x: float,
        y: float,
        text: str,
        width: float,
        size_pt: float = 10.0,
        weight: Weight = "regular",
        align: Align = "left",
        most: int | None = None,
    ) -> float:
        """Adds wrapped text whose first base line is at ``y``; the base line below the last comes back.

        Where ``most`` lines are not enough the text is set smaller, down to the least size.
        """
        text = printable(text)
        lines = wrap(text, width, size_pt, weight)
        while most is not None and len(lines) > most and size_pt > LEAST_PT:
            size_pt = max(LEAST_PT, size_pt - 0.5)
            lines = wrap(text, width, size_pt, weight)
        if most is not None and len(lines) > most:
            lines = [*lines[: most - 1], shortened(" ".join(lines[most - 1 :]), width, size_pt, weight)]
        step = size_pt * LEADING * MM_PER_PT
        for line in lines:
            if line:
                self.items.append(Text(x, y, line, size_pt, weight, align))
            y -= step
        return y

    def page(
        self, size: tuple[float, float], label: str, bookmark: tuple[str, ...] = (), area: Area | None = None
    ) -> Page:
        """The finished page."""
        printable_area = None if area is None else (area.left, area.bottom, area.right, area.top)
        return Page(size, tuple(self.items), printable(label), bookmark, printable_area)


def lines_of(text: str, width: float, size_pt: float, weight: Weight = "regular") -> int:
    """How many lines the text will take."""
    return len(wrap(printable(text), width, size_pt, weight))


def line_step(size_pt: float) -> float:
    """Distance of two base lines, mm."""
    return size_pt * LEADING * MM_PER_PT
