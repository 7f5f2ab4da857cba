"""Projects the sheets are tried with: nine pieces of every kind of hanger, long names, one piece and forty."""

from typing import Any

from composer.model import (
    Arrangement,
    Frame,
    Hanger,
    HardwareChoice,
    Obstacle,
    Piece,
    Placement,
    Project,
    Wall,
)
from composer.units import Length, Mass


def mm(value: float) -> Length:
    return Length.of_mm(value)


def hanger(kind: Any, **lengths: float) -> Hanger:
    plain: dict[str, Any] = {name: value if name == "hooks" else mm(value) for name, value in lengths.items()}
    return Hanger(kind=kind, **plain)


def piece(number: int, name: str, width: float, height: float, how: Hanger | None = None, **more: Any) -> Piece:
    frame: dict[str, Any] = {"width": mm(width), "height": mm(height), "glazing": more.pop("glazing", "unknown")}
    if "face" in more:
        frame |= {"face": mm(more.pop("face")), "lip": mm(6)}
    weight = more.pop("kg", None)
    offset = more.pop("offset", None)
    hardware = None if offset is None else HardwareChoice(fixing="hook", hook_offset=mm(offset))
    return Piece(
        key=f"p{number}",
        number=number,
        name=name,
        frame=Frame(**frame),
        hanger=how or Hanger(),
        weight=None if weight is None else Mass.of_kg(weight),
        hardware=hardware,
        **more,
    )


NAMES = ("Estuary map", "Harbour", "Slipway", "Boats", "Grandmother", "Crane", "Lighthouse", "Tide table", "Gulls")
LONG_NAMES = (
    "Grandmother's embroidered alphabet, given in the winter of the great flood",
    "Donaudampfschifffahrtsgesellschaft",
    "鐘 bell",
    *NAMES[3:],
)

SIZES = ((500, 400), (406, 508), (330, 430), (306, 305), (204, 254), (254, 203), (178, 229), (272, 203), (210, 297))
CORNERS = (
    (1436, 1372), (1986, 1223), (1056, 1262), (2442, 1502), (802, 1502), (752, 1249), (1436, 1093), (1664, 1119), (2442, 1155)
)  # fmt: skip


def nine(units: Any = "metric", names: tuple[str, ...] = NAMES) -> Project:
    """A sofa wall 3 640 × 2 500 with nine pieces; every gap is 50 mm or more."""
    hows = (
        hanger("d-rings", drop=72, drop_right=74, spacing=420),
        hanger("wire", drop=97, spacing=342, hooks=2, hook_spacing=102),
        hanger("wire", drop=80, hooks=1),
        Hanger(),
        hanger("sawtooth", drop=12),
        hanger("sawtooth"),
        hanger("strips"),
        hanger("strips"),
        hanger("strips"),
    )
    more: tuple[dict[str, Any], ...] = (
        {"kg": 3.1, "glazing": "acrylic", "offset": -2},
        {"kg": 3.4, "glazing": "glass", "offset": 18},
        {"kg": 2.2, "glazing": "glass", "offset": 18},
        {},
        {"kg": 0.7, "glazing": "glass"},
        {"kg": 0.65, "glazing": "acrylic"},
        {"kg": 0.48, "glazing": "acrylic", "face": 32},
        {"kg": 0.55, "face": 32},
        {"kg": 0.72, "glazing": "glass", "face": 32},
    )
    pieces = [
        piece(number, names[number - 1], *SIZES[number - 1], hows[number - 1], **more[number - 1])
        for number in range(1, 10)
    ]
    obstacles = (
        Obstacle(key="o91", kind="sofa", left=600.0, bottom=0.0, width=mm(2300), height=mm(840)),
        Obstacle(key="o92", kind="switch", left=3400.0, bottom=1010.0, width=mm(80), height=mm(80)),
        Obstacle(key="o93", kind="socket", left=360.0, bottom=260.0, width=mm(80), height=mm(80)),
    )
    places = [
        Placement(piece=f"p{number}", wall="w90", left=float(x), bottom=float(y))
        for number, (x, y) in enumerate(CORNERS, 1)
    ]
    return project(pieces, places, units=units, obstacles=obstacles)


def project(pieces: list[Piece], places: list[Placement], **more: Any) -> Project:
    obstacles = more.pop("obstacles", ())
    wide, high = more.pop("wall", (3640, 2500))
    return Project(
        title=more.pop("title", "Quayside flat"),
        next_key=100_000,
        next_number=10_000,
        walls=(Wall(key="w90", name="sofa wall", width=mm(wide), height=mm(high), obstacles=obstacles),),
        pieces=tuple(pieces),
        arrangements=(Arrangement(key="h80", name="first", gap=mm(50), placements=tuple(places)),),
        current_arrangement="h80",
        **more,
    )


def one() -> Project:
    """One piece on a wall."""
    return project([piece(1, "Only", 400, 500, hanger("sawtooth", drop=40), kg=1.2)], [at(1, 800, 1200)])


def many(count: int) -> Project:
    """So many small pieces in rows on a long wall."""
    pieces = [
        piece(number, f"piece {number}", 180 + number, 140 + number, hanger("sawtooth", drop=20))
        for number in range(1, count + 1)
    ]
    places = [at(p.number, 100 + 300.0 * (index % 10), 300 + 260.0 * (index // 10)) for index, p in enumerate(pieces)]
    return project(pieces, places, wall=(3640, 2500))


def at(number: int, left: float, bottom: float) -> Placement:
    return Placement(piece=f"p{number}", wall="w90", left=float(left), bottom=float(bottom))
