"""The wall: its outline, what is on it or stands before it, and how heights are taken from it."""

from typing import Literal

import msgspec

from composer.geometry.outline import is_simple, signed_area_mm2
from composer.model.scalars import BadRecord, Key, Pos, check_key, check_length, check_position, check_text
from composer.texts import N_, say
from composer.units import Length

Surface = Literal["painted-board", "plaster", "lath", "masonry", "wallpaper", "textured", "tile", "timber", "unknown"]
WallEnd = Literal["corner", "free", "door"]
ObstacleKind = Literal[
    "sofa",
    "bed",
    "cot",
    "seat",
    "table",
    "door",
    "window",
    "switch",
    "socket",
    "tap",
    "radiator",
    "thermostat",
    "grille",
    "detector",
    "shelf",
    "stair-rail",
    "other",
]


class Datum(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """Where heights and distances are taken from on the day.

    Attributes:
        height: ``floor``, or ``line`` for one level line drawn on the wall.
        line: height of that line above the floor; None = the wall's eye line.
        side: distances are taken from the ``left`` corner, the ``right`` one, or a ``plumb`` line.
        plumb: the plumb line's distance from the left end of the wall.
    """

    height: Literal["floor", "line"] = "floor"
    line: Length | None = None
    side: Literal["left", "right", "plumb"] = "left"
    plumb: Length | None = None

    def __post_init__(self) -> None:
        check_length(self.line, N_("level line"))
        check_length(self.plumb, N_("plumb line's distance"), zero=True)


class Obstacle(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """Something on the wall or in front of it: furniture, a switch, a door.

    Attributes:
        left, bottom: its lower left corner on the wall, mm.
        width, height: as seen from the front.
        depth: how far it stands out from the wall; None = not measured.
        margin: what to keep free around it; None = the usual margin of its kind.
    """

    key: Key
    kind: ObstacleKind
    name: str = ""
    left: Pos
    bottom: Pos
    width: Length
    height: Length
    depth: Length | None = None
    margin: Length | None = None

    def __post_init__(self) -> None:
        check_key(self.key, "o")
        check_text(self.name)
        check_position(self.left)
        check_position(self.bottom)
        check_length(self.width, N_("width"))
        check_length(self.height, N_("height"))
        check_length(self.depth, N_("depth"), zero=True)
        check_length(self.margin, N_("margin"), zero=True)


class Wall(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """One wall, as seen standing in front of it.

    Attributes:
        width, height: the box around it, as measured.
        outline: its corners anticlockwise from the lower left in mm, or None for a plain rectangle.
        eye_line: height of pictures' centres; None = the usual one of the project's units.
        edge_margin: what to keep free along the wall's own edges.
        viewing_distance: from where one looks at it; decides how sharp prints must be.
        no_holes: nothing may be nailed or drilled.
        stud_first, stud_spacing: middle of the first stud from the left, and from one to the next.
        nosing: two points of the line along a stair's nosings, or None.
        left_end, right_end: what the wall meets there; cable zones run along real corners only.
        paint: the wall's own colour, ``#RRGGBB``.
    """

    key: Key
    name: str
    width: Length
    height: Length
    outline: tuple[tuple[Pos, Pos], ...] | None = None
    eye_line: Length | None = None
    edge_margin: Length | None = None
    viewing_distance: Length | None = None
    surface: Surface = "unknown"
    no_holes: bool = False
    stud_first: Length | None = None
    stud_spacing: Length | None = None
    nosing: tuple[tuple[Pos, Pos], tuple[Pos, Pos]] | None = None
    left_end: WallEnd = "corner"
    right_end: WallEnd = "corner"
    skirting: Length | None = None
    paint: str | None = None
    datum: Datum = Datum()
    obstacles: tuple[Obstacle, ...] = ()

    def __post_init__(self) -> None:
        check_key(self.key, "w")
        check_text(self.name)
        if not self.name:
            raise BadRecord(say("A wall needs a name."))
        check_length(self.width, N_("wall's width"))
        check_length(self.height, N_("wall's height"))
        check_length(self.eye_line, N_("eye line"))
        check_length(self.edge_margin, N_("margin along the edges"), zero=True)
        check_length(self.viewing_distance, N_("viewing distance"))
        check_length(self.stud_first, N_("first stud"), zero=True)
        check_length(self.stud_spacing, N_("stud spacing"))
        check_length(self.skirting, N_("skirting's height"), zero=True)
        if self.paint is not None and not _is_colour(self.paint):
            raise BadRecord(say("A colour is written #RRGGBB, not “{colour}”.", colour=self.paint[:20]))
        if self.outline is not None:
            _check_outline(self.outline, self.width, self.height)
        if self.nosing is not None:
            for x, y in self.nosing:
                check_position(x)
                check_position(y)
            if self.nosing[0][0] == self.nosing[1][0]:
                raise BadRecord(say("The two points of a nosing line cannot stand one above the other."))

    @property
    def corners(self) -> tuple[tuple[Pos, Pos], ...]:
        """The outline's corners in mm, anticlockwise, also for a plain rectangle."""
        if self.outline is not None:
            return self.outline
        width, height = float(self.width.mm), float(self.height.mm)
        return ((0.0, 0.0), (width, 0.0), (width, height), (0.0, height))


def _is_colour(text: str) -> bool:
    return len(text) == 7 and text[0] == "#" and all(sign in "0123456789abcdefABCDEF" for sign in text[1:])


def _check_outline(corners: tuple[tuple[Pos, Pos], ...], width: Length, height: Length) -> None:
    if not 3 <= len(corners) <= 200:
        raise BadRecord(say("A wall's outline has 3 to 200 corners, not {count}.", count=len(corners)))
    for x, y in corners:
        check_position(x)
        check_position(y)
    if not is_simple(corners):
        raise BadRecord(say("The wall's outline crosses or touches itself."))
    if signed_area_mm2(corners) <= 0:
        raise BadRecord(say("The wall's outline must run anticlockwise."))
    xs, ys = [x for x, _ in corners], [y for _, y in corners]
    if min(xs) != 0 or min(ys) != 0:
        raise BadRecord(say("The wall's outline must start at 0 on the left and at 0 at its lowest point."))
    if abs(max(xs) - width.mm) > 1e-3 or abs(max(ys) - height.mm) > 1e-3:
        raise BadRecord(
            say(
                "The wall's outline is {box_width} by {box_height} mm, but the wall is {width} by {height}.",
                box_width=f"{max(xs):g}",
                box_height=f"{max(ys):g}",
                width=width.text,
                height=height.text,
            )
        )
