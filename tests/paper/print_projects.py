"""Projects the order, the trimming sheet and the cutting list are tried with."""

from decimal import Decimal
from typing import Any

from composer.model import (
    Arrangement,
    Crop,
    EvenBorders,
    Frame,
    Mat,
    MatLayer,
    MoneyNotes,
    Picture,
    PictureUse,
    Piece,
    Price,
    PrintChoice,
    Project,
    Wall,
    WeightedBorders,
)
from composer.units import Length

NAMES = (
    "Estuary map",
    "Harbour poster",
    "Slipway",
    "Boats",
    "Grandmother",
    "Crane",
    "Lighthouse",
    "Tide table",
    "Gulls",
)

GLASSES = ((459, 359), (359, 461), (291, 391), (261, 260), (173, 223), (223, 172), (123, 174), (217, 148), (155, 242))
"""What fits nine second-hand frames, mm."""

BORDERS = (55, 50, 47, 58, None, None, None, 36, 30)


def mm(value: float) -> Length:
    return Length.of_mm(value)


def framed(number: int, name: str, glass: tuple[float, float], border: float | None, **more: Any) -> Piece:
    """Face 20, lip 6, allowance 3: outside = glass + 31."""
    colour = more.pop("colour", "white")
    layers = more.pop("layers", None) or (MatLayer(board="mat-4-ply", colour=colour),)
    borders = more.pop("borders", None) or (None if border is None else EvenBorders(border=mm(border)))
    mat = None if borders is None else Mat(layers=layers, overlap=mm(3), borders=borders, **more.pop("window", {}))
    use = PictureUse(picture=f"i{500 + number}", print=more.pop("print", PrintChoice()), crop=Crop())
    return Piece(
        key=f"p{number}",
        number=number,
        name=name,
        frame=Frame(width=mm(glass[0] + 31), height=mm(glass[1] + 31), face=mm(20), lip=mm(6), allowance=mm(3)),
        mat=mat,
        uses=(use,),
        current_use=0,
        **more,
    )


def project_of(
    pieces: list[Piece], units: Any = "metric", prices: tuple[Price, ...] = (), title: str = "Quayside flat"
) -> Project:
    pictures = tuple(
        Picture(
            key=f"i{500 + piece.number}",
            path=f"{piece.number}.jpg",
            pixels=(6000, 4000),
            source="city archive" if piece.number % 3 == 1 else "",
            licence="free of rights" if piece.number % 3 == 1 else "",
        )
        for piece in pieces
    )
    return Project(
        title=title,
        units=units,
        next_key=10_000,
        next_number=1_000,
        walls=(Wall(key="w900", name="Sofa wall", width=mm(3640), height=mm(2500)),),
        pieces=tuple(pieces),
        pictures=pictures,
        arrangements=(Arrangement(key="h901", name="first", gap=mm(50)),),
        current_arrangement="h901",
        money=MoneyNotes(prices=prices),
    )


PRICES = tuple(
    Price(item=item, each=Decimal(each))
    for item, each in (
        ("11x14in", "3.90"),
        ("8x12in", "1.69"),
        ("8x10in", "1.49"),
        ("6x8in", "0.79"),
        ("5x7in", "0.59"),
    )
)


def nine(units: Any = "metric", names: tuple[str, ...] = NAMES) -> Project:
    """Six frames with mats in two colours, three without."""
    pieces = [
        framed(
            number,
            name,
            glass,
            border,
            colour="white" if number in (2, 3, 9) else "grey",
            print=PrintChoice(paper="matt" if number < 3 else "lustre"),
        )
        for number, (name, glass, border) in enumerate(zip(names, GLASSES, BORDERS, strict=True), 1)
    ]
    return project_of(pieces, units, PRICES)


def everywhere(units: Any = "metric") -> Project:
    """Waste on other sides, a size made to measure, a chosen size that is short, double mats, odd borders."""
    double = (MatLayer(board="mat-4-ply", colour="white"), MatLayer(board="mat-4-ply", colour="red", reveal=mm(5)))
    pieces = [
        framed(1, "right", (180, 220), None, print=PrintChoice(cut="right")),
        framed(2, "centred", (180, 220), None, print=PrintChoice(cut="centred", price=Decimal("2.25"))),
        framed(3, "bottom", (180, 220), None, print=PrintChoice(cut="bottom", edge="bleed")),
        framed(4, "huge", (900, 1200), None),
        framed(5, "short", (130, 180), None, print=PrintChoice(stock="5x7in")),
        framed(6, "double", (300, 400), 50, layers=double),
        framed(7, "weighted", (300, 400), None, borders=WeightedBorders(extra=mm(15)), window={
            "window_width": mm(180), "window_height": mm(240)
        }),
        framed(8, "beyond every board", (1100, 1600), 80),
        framed(9, "large board", (850, 1100), 80),
    ]  # fmt: skip
    return project_of(pieces, units)


def together(units: Any = "metric") -> Project:
    """Three small prints share a sheet of 12 × 18 in, two another paper's of 8 × 12 in; one is by itself."""
    sizes = ((130, 180), (173, 223), (123, 174), (100, 150), (90, 130), (217, 148))
    chosen = [PrintChoice(shared="12x18in", paper="lustre")] * 3 + [PrintChoice(shared="8x12in", paper="matt")] * 2
    pieces = [
        framed(number, NAMES[number - 1], size, 30 if number == 6 else None, print=choice)
        for number, (size, choice) in enumerate(zip(sizes, (*chosen, PrintChoice(paper="matt")), strict=True), 1)
    ]
    return project_of(pieces, units, PRICES)


def many(count: int, units: Any = "metric") -> Project:
    """Alternately with and without a mat, in sizes that repeat."""
    pieces = [
        framed(n, f"piece {n}", GLASSES[n % 9], 40 if n % 2 else None, colour=("white", "grey", "blue")[n % 3])
        for n in range(1, count + 1)
    ]
    return project_of(pieces, units, PRICES)
