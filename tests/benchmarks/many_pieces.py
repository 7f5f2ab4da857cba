"""Walls full of pieces with pictures, made the same for every benchmark."""

from __future__ import annotations

from composer.model import Arrangement, Frame, Hanger, Piece, Placement, Project, Wall
from composer.units import Length

GAP_MM = 50
SIDE_MM = 200


def wall_of_pieces(count: int, *, width_mm: int = 6000) -> Project:
    """``count`` frames of 200 mm in rows one gap apart, on a wall high enough; every second one a little smaller."""
    per_row = (width_mm - 2 * GAP_MM) // (SIDE_MM + GAP_MM)
    rows = -(-count // per_row)
    height = max(2600, 2 * GAP_MM + rows * (SIDE_MM + GAP_MM))
    pieces, placements = [], []
    for place in range(count):
        side = SIDE_MM - 20 * (place % 2)
        key = f"p{place + 10}"
        pieces.append(
            Piece(
                key=key,
                number=place + 1,
                name=f"Frame {place + 1}",
                frame=Frame(width=Length.of_mm(side), height=Length.of_mm(side)),
                hanger=Hanger(kind="sawtooth", drop=Length.of_mm(20)),
            )
        )
        left = GAP_MM + place % per_row * (SIDE_MM + GAP_MM)
        bottom = GAP_MM + place // per_row * (SIDE_MM + GAP_MM)
        placements.append(Placement(piece=key, wall="w1", left=float(left), bottom=float(bottom)))
    wall = Wall(key="w1", name="Wall", width=Length.of_mm(width_mm), height=Length.of_mm(height))
    arrangement = Arrangement(key="h2", name="first", gap=Length.of_mm(GAP_MM), placements=tuple(placements))
    return Project(
        title="Benchmark",
        next_key=count + 20,
        next_number=count + 1,
        walls=(wall,),
        pieces=tuple(pieces),
        arrangements=(arrangement,),
        current_arrangement="h2",
    )
