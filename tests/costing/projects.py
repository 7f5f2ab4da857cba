"""Projects whose money is worked out by hand in the tests."""

from decimal import Decimal
from typing import Any

from composer.model import (
    Arrangement,
    Frame,
    Hanger,
    MoneyNotes,
    Picture,
    PictureUse,
    Piece,
    Price,
    PrintChoice,
    Project,
    Wall,
)
from composer.units import Length, Mass


def mm(value: float) -> Length:
    return Length.of_mm(value)


def euro(text: str) -> Decimal:
    return Decimal(text)


def piece(number: int, *, kind: str | None = "strips", kg: float = 0.8, print_price: str = "", **more: Any) -> Piece:
    """A frame 300 × 400 mm, on strips unless said otherwise; two pairs of medium ones carry 0.8 kg (0.9 · 2 / 1.5 = 1.2)."""
    frame: dict[str, Any] = {"width": mm(300), "height": mm(400), "face": mm(30), "lip": mm(6), "glazing": "acrylic"}
    frame |= more.pop("frame", {})
    hanger: dict[str, Any] = {"kind": kind, **more.pop("hanger", {})}
    if kind == "strips":
        hanger = {"strip_size": "medium", **hanger}
    if print_price:
        choice = PrintChoice(stock="8x10in", price=euro(print_price))
        more |= {"uses": (PictureUse(picture="i900", print=choice),), "current_use": 0}
    return Piece(
        key=f"p{number}",
        number=number,
        name=f"Piece {number}",
        frame=Frame(**frame),
        hanger=Hanger(**hanger),
        weight=Mass.of_kg(kg),
        **more,
    )


def project(*pieces: Piece, wall: dict[str, Any] | None = None, **money: Any) -> Project:
    """A wall 4 × 2.5 m with these pieces on the floor."""
    return Project(
        title="Landing",
        next_key=1000,
        next_number=1 + max((one.number for one in pieces), default=0),
        walls=(Wall(key="w901", name="wall", width=mm(4000), height=mm(2500), **(wall or {})),),
        pieces=pieces,
        pictures=(Picture(key="i900", path="boats.jpg"),),
        arrangements=(Arrangement(key="h902", name="first", gap=mm(50)),),
        current_arrangement="h902",
        money=MoneyNotes(**money),
    )


def price(item: str, each: str, pack: int = 1) -> Price:
    return Price(item=item, each=euro(each), pack=pack)
