"""Which stock print covers, how it is trimmed, what is said where none does."""

from decimal import Decimal

import pytest

from composer.model import CatalogueEntry, CatalogueNotes, MoneyNotes, Price
from composer.prints.choosing import choose, fit_of, nearest_short, picture_on_sheet, sides_cut
from composer.prints.stock import (
    StockSize,
    board_sheets,
    delivered,
    price_of,
    shown_size,
    source,
    stock_named,
    stock_sizes,
)

INCH = 25.4

# A list as a lab might sell it, in inches (public encyclopedia table of photo print sizes).
SOLD = (
    (3.5, 5), (4, 6), (5, 7), (6, 8), (8, 10), (8, 12), (11, 14), (12, 12), (12, 18), (16, 20),
    (16, 24), (18, 24), (20, 24), (20, 30), (24, 36),
)  # fmt: skip
SIZES = tuple(StockSize(f"{w:g}x{h:g}in", w * INCH, h * INCH) for w, h in SOLD)
NO_SQUARE = tuple(size for size in SIZES if size.id != "12x12in")


def inches(width: float, height: float) -> tuple[float, float]:
    return width * INCH, height * INCH


# Worked by hand: least area among those that cover either way round. 8 × 9 out of 8 × 10 is common practice.
@pytest.mark.parametrize(
    ("needed", "sizes", "expected"),
    [
        (inches(8, 9), SIZES, "8x10in"),
        (inches(8, 8), SIZES, "8x10in"),
        (inches(9, 12), SIZES, "12x12in"),
        (inches(10, 10), SIZES, "12x12in"),
        (inches(10, 10), NO_SQUARE, "11x14in"),
        (inches(7.5, 9.5), SIZES, "8x10in"),
        ((130.0, 180.0), SIZES, "6x8in"),
        ((100.0, 150.0), SIZES, "4x6in"),
        (inches(15, 11), SIZES, "12x18in"),
        (inches(12, 16), SIZES, "12x18in"),
        ((210.0, 297.0), SIZES, "12x12in"),
        ((210.0, 297.0), NO_SQUARE, "11x14in"),
        (inches(25, 37), SIZES, None),
    ],
)
def test_the_smallest_that_covers(
    needed: tuple[float, float], sizes: tuple[StockSize, ...], expected: str | None
) -> None:
    for width, height in (needed, needed[::-1]):
        best = choose((width, height), sizes).best
        assert (None if best is None else best.stock.id) == expected


def test_a_9_inch_print_is_cut_from_a_10_inch_sheet_on_one_side_only() -> None:
    best = choose(inches(8, 9), SIZES).best
    assert best is not None
    assert (best.width_mm, best.height_mm) == inches(8, 10)
    assert best.trim_mm == pytest.approx((0, 25.4), abs=1e-9)  # 254 − 228.6
    assert sides_cut(best.trim_mm, "left") == "bottom"
    lying = choose(inches(9, 8), SIZES).best
    assert lying is not None
    assert (lying.width_mm, lying.height_mm) == inches(10, 8)
    assert sides_cut(lying.trim_mm, "left") == "right"


def test_5_by_7_is_short_of_13_by_18_centimetres_and_said_so() -> None:
    choice = choose((130.0, 180.0), SIZES)
    assert [way.kind for way in choice.advice] == ["short"]
    short = choice.advice[0].fit
    assert short is not None
    assert short.stock.id == "5x7in"
    assert short.short_mm == pytest.approx((3.0, 2.2))  # 130 − 127, 180 − 177.8


def test_nothing_covers_25_by_37_inches_and_three_ways_out_are_named() -> None:
    choice = choose(inches(25, 37), SIZES, overlap_mm=5.0)
    assert choice.best is None
    assert [way.kind for way in choice.advice] == ["mat-down", "larger", "custom"]
    window = choice.advice[0].window_mm
    assert window == pytest.approx((24 * INCH - 10, 36 * INCH - 10))  # the largest sheet less both overlaps


def test_the_cheapest_wins_over_the_smallest_and_priced_sizes_over_unpriced() -> None:
    prices = {"8x12in": Decimal("1.20"), "11x14in": Decimal("0.90")}
    choice = choose(inches(8, 9), SIZES, lambda size: prices.get(size.id))
    assert choice.best is not None
    assert choice.best.stock.id == "11x14in"
    assert [fit.stock.id for fit in choice.runners_up] == ["8x12in", "8x10in", "12x12in"]


# 254 − 228.6 = 25.4 and 203.2 − 180 = 23.2
@pytest.mark.parametrize(
    ("cut", "cut_off", "at"),
    [
        ("left", "right bottom", (0, 0)),
        ("top", "right bottom", (0, 0)),
        ("right", "left bottom", (23.2, 0)),
        ("bottom", "right top", (0, 25.4)),
        ("centred", "even", (11.6, 12.7)),
    ],
)
def test_where_the_waste_is(cut: str, cut_off: str, at: tuple[float, float]) -> None:
    fit = fit_of(SIZES[4], (180.0, 228.6))
    assert sides_cut(fit.trim_mm, cut) == cut_off  # type: ignore[arg-type]
    assert picture_on_sheet(fit, cut) == pytest.approx(at)  # type: ignore[arg-type]


def test_an_exact_size_has_no_waste_in_spite_of_floats() -> None:
    best = choose((8 * 25.4, 3 * 25.4 + 7 * 25.4), SIZES).best
    assert best is not None
    assert best.trim_mm == (0.0, 0.0)
    assert sides_cut(best.trim_mm, "left") == ""


def test_the_shipped_sizes_are_true_to_their_names() -> None:
    for size in stock_sizes("metric"):
        name = size.id
        if name[0] == "a":
            # ISO 216: A0 is 841 × 1189 mm, each next halves the long side, rounded down.
            short, long = 841, 1189
            for _ in range(int(name[1:])):
                short, long = long // 2, short
            assert (size.width_mm, size.height_mm) == (short, long)
            continue
        unit = {"in": 25.4, "cm": 10.0}[name[-2:]]
        sides = tuple(float(side) * unit for side in name[:-2].split("x"))
        assert (size.width_mm, size.height_mm) == pytest.approx(sides)
    assert all(size.id.endswith("in") for size in stock_sizes("imperial"))


def test_a_person_s_own_size_and_one_the_lab_delivers_otherwise() -> None:
    own = CatalogueNotes(
        own=(
            CatalogueEntry(id="13x18cm", kind="stock", name="", fields=(("width_mm", 130.0), ("height_mm", 180.0))),
            CatalogueEntry(id="8x10in", kind="stock", name="", fields=(("width_mm", 202.0), ("height_mm", 252.0))),
            CatalogueEntry(id="6x8in", kind="stock", name="", fields=(("sold", "no"),)),
        )
    )
    sizes = stock_sizes("metric", own)
    best = choose((130.0, 180.0), sizes).best
    assert best is not None
    assert best.stock.id == "13x18cm"
    assert stock_named(sizes, "6x8in") is None
    wide = choose((202.5, 230.0), sizes).best
    assert wide is not None
    assert wide.stock.id == "8x12in"


@pytest.mark.parametrize("written", ["8x10in", "8 × 10 in", "8X10IN", "20x25cm", "20 × 25 cm"])
def test_a_size_is_found_however_it_is_written(written: str) -> None:
    found = stock_named(stock_sizes("metric"), written)
    assert found is not None
    assert found.id == "8x10in"


def test_a_price_of_one_paper_wins_over_the_price_of_the_size() -> None:
    money = MoneyNotes(
        prices=(
            Price(item="8x10in", each=Decimal("1.49")),
            Price(item="8 x 10 in matt", each=Decimal("1.99")),
            Price(item="10x15cm", each=Decimal("2.90"), pack=10),
        )
    )
    by_id = {size.id: size for size in stock_sizes("imperial")}
    assert price_of(by_id["8x10in"], None, money) == Decimal("1.49")
    assert price_of(by_id["8x10in"], "lustre", money) == Decimal("1.49")
    assert price_of(by_id["8x10in"], "Matt", money) == Decimal("1.99")
    assert price_of(by_id["4x6in"], None, money) == Decimal("0.29")
    assert price_of(by_id["5x7in"], None, money) is None


def test_names_for_reading() -> None:
    assert shown_size("3.5x5in") == "3.5\u00a0×\u00a05\u00a0in"
    assert shown_size("a4") == "A4"


def test_with_nothing_for_sale_only_another_shop_is_left() -> None:
    choice = choose(inches(8, 10), ())
    assert (choice.best, choice.runners_up) == (None, ())
    assert [way.kind for way in choice.advice] == ["custom"]


def test_an_entry_that_is_no_size_is_passed_over() -> None:
    """Measures that are missing, no numbers, nothing, or 100 m; and an entry of another kind."""
    bad: tuple[tuple[tuple[str, str | float], ...], ...] = (
        (("width_mm", 100.0),),
        (("width_mm", "wide"), ("height_mm", 100.0)),
        (("width_mm", 0.0), ("height_mm", 100.0)),
        (("width_mm", 100.0), ("height_mm", 100_000.0)),
    )
    entries = [CatalogueEntry(id=f"own-{n}", kind="stock", name="", fields=fields) for n, fields in enumerate(bad)]
    fine = (("width_mm", 99_999.0), ("height_mm", 1.0))
    entries.append(CatalogueEntry(id="own-board", kind="board-sheet", name="", fields=fine))
    entries.append(CatalogueEntry(id="own-strip", kind="stock", name="", fields=fine))
    ids = {size.id for size in stock_sizes("imperial", CatalogueNotes(own=tuple(entries)))}
    assert {name for name in ids if name.startswith("own-")} == {"own-strip"}


def test_boards_as_sold_and_a_person_s_own() -> None:
    # 32 × 40 in and 40 × 60 in are the usual sheets (common practice); 25.4 mm to the inch.
    sides = [side for board in board_sheets() for side in (board.width_mm, board.height_mm)]
    assert sides == pytest.approx([32 * INCH, 40 * INCH, 40 * INCH, 60 * INCH])
    rest = CatalogueEntry(id="offcut", kind="board-sheet", name="", fields=(("width_mm", 600.0), ("height_mm", 400.0)))
    print_size = CatalogueEntry(id="9x9in", kind="stock", name="", fields=(("width_mm", 229.0), ("height_mm", 229.0)))
    boards = board_sheets(CatalogueNotes(own=(rest, print_size)))
    assert [board.id for board in boards] == ["offcut", "32x40in", "40x60in"]
    assert (boards[0].width_mm, boards[0].height_mm) == (400.0, 600.0)


def test_a_sheet_may_be_delivered_otherwise() -> None:
    size = StockSize("8x10in", *inches(8, 10), list="inch")
    smaller = delivered(size, 252.0, 202.0)
    assert (smaller.id, smaller.width_mm, smaller.height_mm, smaller.list) == ("8x10in", 202.0, 252.0, "own")


def test_where_the_sizes_come_from_is_said() -> None:
    assert "ISO 216" in source()
    assert StockSize("8x10in", *inches(8, 10)).shown == "8\u00a0×\u00a010\u00a0in"


def sold(*sides: tuple[float, float], kind: str = "own") -> tuple[StockSize, ...]:
    return tuple(StockSize(f"{w:g}x{h:g}mm", w, h, kind) for w, h in sides)  # type: ignore[arg-type]


def test_sizes_short_by_3_mm_are_named_cheapest_first_two_at_most() -> None:
    """3 mm hide under lip and mat (judgement); both sides count, exactly 3 is still near, 3.1 is not."""
    sizes = sold((97, 100), (96.9, 100), (98, 98), (99, 99), (100, 90), (200, 200))
    choice = choose((100, 100), sizes)
    assert choice.best is not None and choice.best.stock.id == "200x200mm"
    near = [way.fit for way in choice.advice if way.kind == "short"]
    assert [fit.stock.id for fit in near if fit is not None] == ["98x98mm", "97x100mm"]  # 9 604, 9 700, then 9 801 mm²
    assert [fit.short_mm for fit in near if fit is not None] == [(2, 2), (0, 3)]  # lying, 100 × 97


def test_a_size_that_is_short_and_dearer_than_the_best_is_not_named() -> None:
    sizes = sold((98, 98), (200, 200))
    prices = {"98x98mm": Decimal(3), "200x200mm": Decimal(2)}
    assert choose((100, 100), sizes, lambda size: prices[size.id]).advice == ()
    prices["98x98mm"] = Decimal(1)
    assert [way.kind for way in choose((100, 100), sizes, lambda size: prices[size.id]).advice] == ["short"]
    # Where nothing covers, the short one is named and so are the ways out.
    assert [way.kind for way in choose((100, 100), sold((98, 98))).advice] == ["short", "mat-down", "larger", "custom"]


def test_a_free_print_is_cheaper_than_any_other_and_no_price_than_none() -> None:
    sizes = sold((110, 110), (120, 120), (130, 130))
    prices = {"120x120mm": Decimal(0), "130x130mm": Decimal(1)}
    ranked = choose((100, 100), sizes, lambda size: prices.get(size.id))
    assert ranked.best is not None
    assert [ranked.best.stock.id, *(fit.stock.id for fit in ranked.runners_up)] == [
        "120x120mm",
        "130x130mm",
        "110x110mm",
    ]


def test_of_two_sizes_of_one_area_the_one_of_the_inch_list_is_taken() -> None:
    inch = StockSize("z", 100, 120, "inch")
    metric = StockSize("a", 100, 120, "metric")
    best = choose((100, 120), (metric, inch)).best
    assert best is not None and best.stock.id == "z"


def test_a_sheet_that_covers_neither_way_is_laid_where_it_is_short_by_least() -> None:
    # 80 × 120 for 100 × 110: upright 20 short across; lying 120 × 80 is 30 short up. Covering both ways, the least waste
    # across counts: 200 × 210 for 150 × 160 is 50 upright, 60 lying.
    assert fit_of(sold((80, 120))[0], (100, 110)).trim_mm == (-20, 10)
    assert fit_of(sold((120, 80))[0], (100, 110)).trim_mm == (-20, 10)
    assert fit_of(sold((200, 210))[0], (150, 160)).trim_mm == (50, 50)
    assert fit_of(sold((210, 200))[0], (150, 160)).trim_mm == (50, 50)
    # Short by nothing one way beats covering by luck: 100 × 150 for 100 × 150, exactly.
    assert fit_of(sold((150, 100))[0], (100, 150)).trim_mm == (0, 0)


@pytest.mark.parametrize(
    ("needed", "overlap", "window"),
    [
        ((300, 400), None, (200, 250)),  # the largest, 200 × 250, whole: no mat, no overlap
        ((300, 400), 5.0, (190, 240)),  # less both overlaps
        ((150, 400), 5.0, (140, 240)),  # no wider than the print wanted, 150 − 2 · 5
        ((300, 120), 5.0, (240, 110)),  # lying: 250 − 10 by 120 − 10
    ],
)
def test_the_window_a_mat_would_be_cut_down_to(
    needed: tuple[float, float], overlap: float | None, window: tuple[float, float]
) -> None:
    choice = choose(needed, sold((100, 100), (200, 250)), overlap_mm=overlap)
    assert choice.best is None
    assert choice.advice[0].window_mm == pytest.approx(window)


def test_less_than_a_millionth_of_a_millimetre_is_no_waste() -> None:
    assert sides_cut((1e-7, 1e-7), "left") == ""
    assert sides_cut((0.01, 0.0), "left") == "right"
    assert sides_cut((0.0, 0.01), "left") == "bottom"
    assert picture_on_sheet(fit_of(sold((80, 120))[0], (100, 110)), "right") == (0, 0)  # short across: it starts at 0
    assert picture_on_sheet(fit_of(sold((80, 120))[0], (100, 110)), "bottom") == (0, 10)


def test_the_size_that_is_short_by_least_in_all() -> None:
    # Of 100 × 100: 97 × 98 misses 3 + 2, 94 × 100 misses 6; 120 × 120 covers and is none of them.
    found = nearest_short((100, 100), sold((94, 100), (97, 98), (120, 120)))
    assert found is not None and found.stock.id == "97x98mm"
    assert nearest_short((100, 100), sold((120, 120))) is None
