"""Walls with prices for the shopping list, and walls that change for the rehang plan."""

from decimal import Decimal
from typing import Any

import msgspec

from composer.model import (
    Arrangement,
    EvenBorders,
    Extra,
    HardwareChoice,
    InDrawer,
    Mat,
    MatLayer,
    MoneyNotes,
    Picture,
    PictureUse,
    PrintChoice,
    Project,
)
from tests.costing.projects import mm, price
from tests.paper.sheet_projects import nine
from tests.rehang.walls import nail, nine_to_eleven, rings, strips, wall_of

PRICES = (
    price("8x10in lustre", "1.90"),
    price("8x12in", "2.10"),
    price("12x18in", "3.90"),
    price("11x14in", "3.20"),
    price("6x8in", "0.90"),
    price("mat-4-ply white", "7.20"),
    price("mat-4-ply grey", "7.20"),
    price("hinging-tape", "3.80", 10),
    price("hook-two-nails", "2.20", 4),
    price("hook-one-nail", "1.90", 5),
    price("strips-medium", "4.95", 4),
    price("bumpers", "1.80", 16),
    price("wipes", "1.50", 10),
)


def priced(units: Any = "metric", budget: str = "65.00") -> Project:
    """The nine pieces of the other sheets with mats, pictures, hooks, and invented prices; 8 and 9 not owned."""
    plain = nine(units)
    pieces = []
    for piece in plain.pieces:
        more: dict[str, Any] = {"owned": piece.number < 8, "price": Decimal("4.00") if piece.number > 7 else None}
        if piece.number <= 4:
            colour = "white" if piece.number in (2, 3) else "grey"
            layer = MatLayer(board="mat-4-ply", colour=colour)
            more["mat"] = Mat(layers=(layer,), borders=EvenBorders(border=mm(50)))
        if piece.number <= 5:
            more |= {"uses": (PictureUse(picture="i900", print=PrintChoice(paper="lustre")),), "current_use": 0}
        if piece.number in (2, 3, 4):
            fixing = "hook-one-nail" if piece.number == 4 else "hook-two-nails"
            more["hardware"] = HardwareChoice(fixing=fixing, count=1)
        frame = piece.frame
        if frame.face is None:
            frame = msgspec.structs.replace(frame, face=mm(30), lip=mm(6), allowance=mm(3))
        pieces.append(msgspec.structs.replace(piece, frame=frame, **more))
    money = MoneyNotes(
        budget=Decimal(budget),
        prices=PRICES,
        in_drawer=(InDrawer(item="strips-medium", count=1),),
        extras=(Extra(what="Drill bit, 6 mm", each=Decimal("2.10")),),
    )
    return msgspec.structs.replace(
        plain, pieces=tuple(pieces), pictures=(Picture(key="i900", path="boats.jpg"),), next_key=1000, money=money
    )


def mixed_change(units: Any = "metric") -> Project:
    """Two that swap their places, rings that come down and go up elsewhere, strips that move, one that stays."""
    pieces = [
        nail(1, 300, 250, 20),
        nail(2, 300, 250, 20),
        rings(3, 600, 400, 60, 400),
        strips(4, 300, 400),
        strips(5, 250, 300),
        rings(6, 500, 350, 50, 400.5),
        nail(7, 260, 330, 25),
    ]
    first = {1: (900.0, 1500.0), 2: (1250.0, 1500.0), 3: (1600.0, 1300.0), 4: (2250.0, 1300.0), 5: (900.0, 1150.0)}
    second = {
        1: (1250.0, 1500.0), 2: (900.0, 1500.0), 6: (1700.0, 1340.0), 4: (2250.0, 1250.0), 7: (2650.0, 1300.0),
        5: (900.0, 1150.0),
    }  # fmt: skip
    return msgspec.structs.replace(wall_of(pieces, first, second), units=units)


def eleven(units: Any = "metric") -> Project:
    """Nine that become eleven, with prices."""
    money = MoneyNotes(prices=(price("hook-slim", "2.20", 10), price("filler", "3.20")))
    return msgspec.structs.replace(nine_to_eleven(), units=units, money=money)


def emptied(project: Project) -> Project:
    """The same wall, with nothing wanted on it."""
    bare = Arrangement(key="h950", name="bare", gap=mm(50))
    return msgspec.structs.replace(
        project, arrangements=(*project.arrangements, bare), current_arrangement="h950", next_key=1001
    )
