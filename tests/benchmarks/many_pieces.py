"""Walls full of pieces with pictures, made the same for every benchmark."""

from __future__ import annotations

import math
import random
from pathlib import Path

from composer.model import (
    Arrangement,
    Frame,
    Hanger,
    HardwareChoice,
    Mat,
    MatLayer,
    Obstacle,
    Picture,
    PictureUse,
    Piece,
    Placement,
    Project,
    Wall,
)
from composer.units import Length, Mass

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


WALLS = 10
KINDS = ("sofa", "table", "switch", "door", "radiator")
HANGERS = (
    Hanger(kind="wire", spacing=Length.of_mm(140), wire=Length.of_mm(160), ring_drop=Length.of_mm(60)),
    Hanger(kind="d-rings", drop=Length.of_mm(40), spacing=Length.of_mm(120)),
    Hanger(kind="sawtooth", drop=Length.of_mm(12)),
    Hanger(kind="strips"),
)


def many_walls(count: int, folder: Path, walls: int = WALLS) -> Project:
    """So many pieces over some walls, half as many obstacles in a strip below them, three in ten with a linked picture.

    Frames differ in size, back, weight and fixing, every third one has a mat; the same for the same count.

    Args:
        count: pieces.
        folder: where the project will be saved; the picture files are put there.
    """
    chance = random.Random(count)
    per_wall = -(-count // walls)
    per_row = max(1, round(math.sqrt(per_wall * 2)))
    pitch = SIDE_MM + GAP_MM
    low = 1000
    width = 2 * GAP_MM + max(per_row * pitch, (per_wall // 2 + 1) * 120)
    height = low + 2 * GAP_MM + -(-per_wall // per_row) * pitch
    pictures = _pictures(count * 3 // 10, folder)
    pieces, placements = [], []
    things: list[list[Obstacle]] = [[] for _ in range(walls)]
    for number in range(1, count + 1):
        place, wall = divmod(number - 1, walls)
        key = f"p{number + 100}"
        pieces.append(_piece(key, number, chance, pictures))
        left, bottom = GAP_MM + place % per_row * pitch, low + GAP_MM + place // per_row * pitch
        placements.append(Placement(piece=key, wall=f"w{wall + 1}", left=float(left), bottom=float(bottom)))
        if number % 2:
            things[wall].append(
                Obstacle(
                    key=f"o{number + 10_000}",
                    kind=chance.choice(KINDS),  # type: ignore[arg-type]
                    left=float(GAP_MM + 120 * len(things[wall])),
                    bottom=0.0,
                    width=Length.of_mm(100),
                    height=Length.of_mm(chance.randrange(300, 1100)),
                )
            )
    made = tuple(
        Wall(
            key=f"w{at + 1}",
            name=f"Wall {at + 1}",
            width=Length.of_mm(width),
            height=Length.of_mm(height),
            surface="painted-board",
            obstacles=tuple(things[at]),
        )
        for at in range(walls)
    )
    return Project(
        title="Benchmark of size",
        next_key=30_000,
        next_number=count + 1,
        walls=made,
        pieces=tuple(pieces),
        pictures=pictures,
        arrangements=(Arrangement(key="h20", name="first", gap=Length.of_mm(GAP_MM), placements=tuple(placements)),),
        current_arrangement="h20",
    )


def _piece(key: str, number: int, chance: random.Random, pictures: tuple[Picture, ...]) -> Piece:
    linked = number <= len(pictures)
    return Piece(
        key=key,
        number=number,
        name=f"Frame {number}",
        frame=Frame(
            width=Length.of_mm(SIDE_MM - chance.randrange(0, 40)),
            height=Length.of_mm(SIDE_MM - chance.randrange(0, 40)),
            face=Length.of_mm(30),
            lip=Length.of_mm(6),
            rabbet_depth=Length.of_mm(10),
            glazing="glass",
        ),
        mat=Mat(layers=(MatLayer(board="mat-4-ply"),)) if linked and number % 3 == 0 else None,
        uses=(PictureUse(picture=pictures[number - 1].key),) if linked else (),
        current_use=0 if linked else None,
        hanger=HANGERS[number % len(HANGERS)],
        weight=Mass.from_text(f"{chance.randrange(200, 900)} g"),
        hardware=HardwareChoice(fixing="hook-slim") if number % 4 == 2 else None,
    )


def _pictures(count: int, folder: Path) -> tuple[Picture, ...]:
    from PIL import Image

    made = []
    for number in range(1, count + 1):
        path = folder / f"picture-{number}.jpg"
        Image.new("RGB", (60 + number % 40, 80), (number % 256, 128, 90)).save(path)
        made.append(Picture(key=f"i{number + 20_000}", path=path.name))
    return tuple(made)
