"""Twelve frames with all seven hangers, and where their hanging points are by sums made here.

The sums use only the written measures: y = height − drop, x = width/2 + offset ± spacing/2, an inch
of 25.4 mm, and for the wire on two hooks the triangle relation written out below.
"""

from math import sqrt

from composer.model import Arrangement, Frame, Hanger, HardwareChoice, Piece, Placement, Project, Wall
from composer.units import Length

IN = 25.4


def _length(text: str) -> Length:
    return Length.from_text(text)


def _piece(
    number: int, width: str, height: str, hanger: Hanger, face: str | None = None, offset: str | None = None
) -> Piece:
    frame = Frame(width=_length(width), height=_length(height), face=_length(face) if face else None)
    hook = HardwareChoice(fixing="hook-1-nail", hook_offset=_length(offset)) if offset else None
    return Piece(key=f"p{number}", number=number, name=f"Frame {number}", frame=frame, hanger=hanger, hardware=hook)


def _pieces() -> list[Piece]:
    at = _length
    return [
        _piece(1, "16 in", "20 in", Hanger(kind="wire", drop=at("3 3/8 in"))),
        _piece(
            2,
            "406 mm",
            "508 mm",
            Hanger(
                kind="wire",
                wire=at("374 mm"),
                spacing=at("342 mm"),
                ring_drop=at("161 mm"),
                hooks=2,
                hook_spacing=at("102 mm"),
            ),
            offset="18 mm",
        ),
        _piece(
            3,
            "24 in",
            "18 in",
            Hanger(kind="d-rings", drop=at("4 in"), drop_right=at("3 7/8 in"), spacing=at("19 1/2 in")),
        ),
        _piece(
            4,
            "50 cm",
            "70 cm",
            Hanger(kind="d-rings", drop=at("7.2 cm"), drop_right=at("7.4 cm"), spacing=at("41 cm")),
            offset="-2 mm",
        ),
        _piece(5, "20 cm", "25 cm", Hanger(kind="sawtooth", drop=at("1.2 cm"), offset=at("-5 mm"))),
        _piece(6, "11 in", "14 in", Hanger(kind="keyholes", drop=at("1 1/2 in"), spacing=at("8 in"))),
        _piece(7, "178 mm", "229 mm", Hanger(kind="strips"), face="32 mm"),
        _piece(8, "80 cm", "60 cm", Hanger(kind="cleat", drop=at("9 cm"))),
        _piece(9, "5 in", "7 in", Hanger(kind="ledge")),
        _piece(10, "33 cm", "43 cm", Hanger()),
        _piece(11, "100 mm", "150 mm", Hanger(kind="sawtooth", drop=at("1/2 in"))),
        _piece(12, "12 in", "12 in", Hanger(kind="wire", drop=at("55 mm"), offset=at("1/4 in"))),
    ]


def _two_hook_drop() -> float:
    """Wire 374 between rings 342 apart, two hooks 102 apart: each slanted part is (374 − 102)/2 long and
    spans (342 − 102)/2 across; the rise is the triangle's third side (Pythagoras); drop = 161 − rise."""
    return 161 - sqrt(((374 - 102) / 2) ** 2 - ((342 - 102) / 2) ** 2)


SIZES: dict[int, tuple[float, float]] = {
    1: (16 * IN, 20 * IN),
    2: (406.0, 508.0),
    3: (24 * IN, 18 * IN),
    4: (500.0, 700.0),
    5: (200.0, 250.0),
    6: (11 * IN, 14 * IN),
    7: (178.0, 229.0),
    8: (800.0, 600.0),
    9: (5 * IN, 7 * IN),
    10: (330.0, 430.0),
    11: (100.0, 150.0),
    12: (12 * IN, 12 * IN),
}

POINTS: dict[int, list[tuple[float, float]]] = {
    1: [(8 * IN, 20 * IN - 3.375 * IN)],
    2: [(203 - 51.0, 508 - _two_hook_drop()), (203 + 51.0, 508 - _two_hook_drop())],
    3: [(12 * IN - 9.75 * IN, 18 * IN - 4 * IN), (12 * IN + 9.75 * IN, 18 * IN - 3.875 * IN)],
    4: [(250 - 205.0, 700 - 72.0), (250 + 205.0, 700 - 74.0)],
    5: [(100 - 5.0, 250 - 12.0)],
    6: [(5.5 * IN - 4 * IN, 14 * IN - 1.5 * IN), (5.5 * IN + 4 * IN, 14 * IN - 1.5 * IN)],
    # Strips 16 × 70 placed 5 mm inside the upper corners: their middles.
    7: [(5 + 8.0, 229 - 5 - 35.0), (178 - 5 - 8.0, 229 - 5 - 35.0)],
    # No spacing measured: the rail is the larger of width − 100 and half the width.
    8: [(50.0, 510.0), (750.0, 510.0)],
    9: [(1.25 * IN, 0.0), (3.75 * IN, 0.0)],
    10: [],
    11: [(50.0, 150 - 12.7)],
    12: [(6 * IN + 0.25 * IN, 12 * IN - 55)],
}

RAISED: dict[int, float] = {2: 18.0, 4: -2.0}
"""Hook's own offset from seat up to the hole; 0 where no fixing is chosen."""

NO_HOLES = {7, 9, 10}

LOWER_LEFT: dict[int, tuple[float, float]] = {
    1: (60, 1500), 2: (560, 1450), 3: (1060, 1600), 4: (1750, 1200), 5: (2350, 1750), 6: (2650, 1600), 7: (3000, 1500),
    8: (60, 700), 9: (960, 1200), 10: (1180, 900), 11: (2400, 1400),
}  # fmt: skip
"""Piece 12 stays on the floor."""


def twelve() -> Project:
    wall = Wall(key="w100", name="Long wall", width=_length("4 m"), height=_length("2.5 m"))
    places = tuple(
        Placement(piece=f"p{number}", wall="w100", left=float(x), bottom=float(y))
        for number, (x, y) in LOWER_LEFT.items()
    )
    hang = Arrangement(key="h101", name="first", gap=_length("50 mm"), placements=places)
    return Project(
        title="Twelve",
        next_key=102,
        next_number=13,
        walls=(wall,),
        pieces=tuple(_pieces()),
        arrangements=(hang,),
        current_arrangement="h101",
    )
