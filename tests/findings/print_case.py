"""Frames in whose print, mat or picture something is wrong, one thing each."""

from typing import Any

import msgspec

from composer.findings import check
from composer.model import (
    Arrangement,
    EvenBorders,
    Finding,
    Frame,
    Mat,
    Picture,
    PictureUse,
    Piece,
    Placement,
    PrintChoice,
    Project,
    Wall,
)
from composer.units import Length


def mm(value: float) -> Length:
    return Length.of_mm(value)


def framed(number: int, glass: tuple[float, float], picture: str | None = "i400", **more: Any) -> Piece:
    """A frame round a glass of that size: face 20, lip 6, allowance 3, so outside = glass + 3 + 2 · 14."""
    frame: dict[str, Any] = {"glazing": "none"} | more.pop("frame", {})
    use = PictureUse(picture=picture or "i400", print=more.pop("print", PrintChoice()))
    return Piece(
        key=f"p{number}",
        number=number,
        name=f"mill {number}",
        frame=Frame(
            width=mm(glass[0] + 31), height=mm(glass[1] + 31), face=mm(20), lip=mm(6), allowance=mm(3), **frame
        ),
        uses=(use,) if picture else (),
        current_use=0 if picture else None,
        **more,
    )


def project_of(pieces: list[Piece], *, distance_mm: float | None = None) -> Project:
    wall = Wall(
        key="w300",
        name="board",
        width=mm(9000),
        height=mm(2500),
        viewing_distance=None if distance_mm is None else mm(distance_mm),
    )
    places = tuple(
        Placement(piece=one.key, wall="w300", left=float(700 * index), bottom=1000.0)
        for index, one in enumerate(pieces)
    )
    return Project(
        title="inside",
        next_key=1000,
        next_number=100,
        walls=(wall,),
        pieces=tuple(pieces),
        pictures=(
            Picture(key="i400", path="large.jpg", pixels=(6000, 4000)),
            Picture(key="i401", path="small.jpg", pixels=(512, 512)),
            Picture(key="i402", path="cut-off.jpg", pixels=(6000, 4000)),
        ),
        arrangements=(Arrangement(key="h600", name="first", gap=mm(50), placements=places),),
        current_arrangement="h600",
    )


def everything_inside() -> tuple[Finding, ...]:
    """Every finding about prints, mats and pictures."""
    glazed = {"glazing": "glass", "glazing_thickness": mm(2), "rabbet_depth": mm(4)}
    pieces = [
        framed(51, (203.2, 203.2), picture="i401"),
        framed(52, (700, 1000)),
        framed(53, (700, 1000), mat=Mat(borders=EvenBorders(border=mm(20)))),
        framed(54, (130, 180), print=PrintChoice(stock="5x7in")),
        framed(55, (150, 180), print=PrintChoice(stock="5x7in")),
        framed(56, (200, 250), frame=glazed),
        framed(
            57, (200, 250), frame={**glazed, "backing_thickness": mm(5)}, mat=Mat(borders=EvenBorders(border=mm(50)))
        ),
        framed(58, (200, 250), mat=Mat(borders=EvenBorders(border=mm(100)))),
        framed(59, (200, 250), mat=Mat(overlap=mm(3))),
        framed(60, (200, 250), picture="i402"),
    ]

    def state(picture: Picture) -> str:
        return {"small.jpg": "changed", "cut-off.jpg": "“cut-off.jpg” is cut off."}.get(picture.path, "")

    return check(project_of(pieces), missing=state)


def without_picture(piece: Piece) -> Piece:
    return msgspec.structs.replace(piece, uses=(), current_use=None)
