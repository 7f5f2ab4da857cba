"""What a sheet is made of: lines, shapes and text in page millimetres.

The origin is the page's lower left corner, y up. Every sheet is described once with these
records; the PDF, the SVG and the pixel picture are drawn from the same description, so they
cannot differ. Grey is the share of black: 0 is black, ``GREY`` is the one grey of the house.
"""

from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal, overload

Weight = Literal["regular", "semibold", "bold"]
Align = Literal["left", "centre", "right"]
Turn = Literal[0, 90, -90]
Point = tuple[float, float]

HAIR_PT, THIN_PT, THICK_PT = 0.25, 0.5, 1.0
"""The three line weights, in points."""

BLACK, GREY, LIGHT_GREY, WHITE = 0.0, 0.45, 0.82, 1.0
"""Lightness of ink: ``GREY`` is 55 % black, ``LIGHT_GREY`` fills areas, ``WHITE`` text on black."""

MM_PER_PT = 25.4 / 72
"""One PDF point in millimetres: 1/72 inch (ISO 32000-1, 8.3.2.3)."""

Dash = tuple[float, ...]
SOLID: Dash = ()
LAY_DASH: Dash = (4.0, 2.0)
"""Dashed: lay the neighbour's cut edge here. Lengths of dash and gap in mm."""
CENTRE_DASH: Dash = (6.0, 1.0, 1.0, 1.0)
"""Long-short: a centre line or the level line."""


@dataclass(frozen=True, slots=True)
class Line:
    """One straight stroke in one piece."""

    x1: float
    y1: float
    x2: float
    y2: float
    width_pt: float = THIN_PT
    grey: float = BLACK
    dash: Dash = SOLID


@dataclass(frozen=True, slots=True)
class Polygon:
    """Straight edges from point to point; stroked, filled or both (None = not)."""

    points: tuple[Point, ...]
    closed: bool = True
    width_pt: float | None = None
    grey: float = BLACK
    fill_grey: float | None = None


@dataclass(frozen=True, slots=True)
class Box:
    """An upright rectangle, stroked by default."""

    left: float
    bottom: float
    width: float
    height: float
    width_pt: float | None = THIN_PT
    grey: float = BLACK
    fill_grey: float | None = None
    dash: Dash = SOLID


@dataclass(frozen=True, slots=True)
class Circle:
    """A circle about (x, y), stroked by default."""

    x: float
    y: float
    radius: float
    width_pt: float | None = THIN_PT
    grey: float = BLACK
    fill_grey: float | None = None


@dataclass(frozen=True, slots=True)
class Text:
    """One line of text.

    (x, y) lies on the baseline: at the text's start, middle or end as ``align`` says. ``turn`` 90
    reads upwards, -90 downwards; start and end are meant along the line as it is read.
    """

    x: float
    y: float
    text: str
    size_pt: float = 10.0
    weight: Weight = "regular"
    align: Align = "left"
    turn: Turn = 0
    grey: float = BLACK


@dataclass(frozen=True, slots=True)
class Photo:
    """A picture in an upright rectangle; ``jpeg`` is a small baseline JPEG of the rectangle's shape."""

    left: float
    bottom: float
    width: float
    height: float
    jpeg: bytes


Item = Line | Polygon | Box | Circle | Text | Photo


@dataclass(frozen=True, slots=True)
class Page:
    """One page: ``size`` (width, height) in mm, its page label, and where it stands in the outline.

    ``bookmark`` is a path of headings from the outermost in, e.g. ("2 Harbour poster", "2-B1");
    empty means no entry of its own. ``printable`` is left, bottom, right, top in page mm;
    nothing that matters lies outside it.
    """

    size: tuple[float, float]
    items: tuple[Item, ...]
    label: str
    bookmark: tuple[str, ...] = ()
    printable: tuple[float, float, float, float] | None = None


class LazyPages(Sequence[Page]):
    """Pages made one after the other when they are asked for, so that a long job never holds them all."""

    def __init__(self, makers: Sequence[Callable[[], Page]]) -> None:
        self._makers = makers

    def __len__(self) -> int:
        return len(self._makers)

    @overload
    def __getitem__(self, index: int) -> Page: ...
    @overload
    def __getitem__(self, index: slice) -> Sequence[Page]: ...
    def __getitem__(self, index: int | slice) -> Page | Sequence[Page]:
        if isinstance(index, slice):
            return LazyPages(self._makers[index])
        return self._makers[index]()


@dataclass(frozen=True, slots=True)
class Document:
    """A finished set of pages.

    ``language`` is a BCP 47 tag of the words on the pages.
    """

    title: str
    pages: Sequence[Page]
    language: str = "en"


def arrow_up(x: float, bottom: float, height: float = 15.0, width: float = 10.0) -> Polygon:
    """A filled arrow that points up, its shaft 2/5 as wide as its head."""
    half, shaft = width / 2, width / 5
    neck = bottom + height * 0.53
    return Polygon(
        points=(
            (x, bottom + height),
            (x + half, neck),
            (x + shaft, neck),
            (x + shaft, bottom),
            (x - shaft, bottom),
            (x - shaft, neck),
            (x - half, neck),
        ),
        fill_grey=BLACK,
    )


def moved(items: Iterable[Item], dx: float, dy: float) -> Iterator[Item]:
    """The same items, shifted by (dx, dy) mm."""
    for item in items:
        if isinstance(item, Line):
            yield replace(item, x1=item.x1 + dx, y1=item.y1 + dy, x2=item.x2 + dx, y2=item.y2 + dy)
        elif isinstance(item, Polygon):
            yield replace(item, points=tuple((x + dx, y + dy) for x, y in item.points))
        elif isinstance(item, Box | Photo):
            yield replace(item, left=item.left + dx, bottom=item.bottom + dy)
        else:
            yield replace(item, x=item.x + dx, y=item.y + dy)
