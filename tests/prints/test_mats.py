"""Windows, borders, layers and bevels, worked in inches as framers write them."""

import pytest

from composer.catalogue.catalogue import usual
from composer.model import (
    Borders,
    CustomBorders,
    EvenBorders,
    Frame,
    Mat,
    MatLayer,
    RatioBorders,
    WeightedBorders,
)
from composer.prints.mats import MatPlan, MatRefused, bevel_mm, frame_sizes, layout, stack, stack_mm
from composer.units import Length

INCH = 25.4


def inch(text: str) -> Length:
    return Length.from_text(f"{text} in")


def inches(values: tuple[float, ...]) -> tuple[float, ...]:
    return tuple(value * INCH for value in values)


def planned(
    outer: tuple[float, float], art: tuple[float, float] | None, overlap: str | None, borders: Borders, **more: object
) -> MatPlan:
    mat = Mat(overlap=None if overlap is None else inch(overlap), borders=borders, **more)  # type: ignore[arg-type]
    art_mm = None if art is None else (art[0] * INCH, art[1] * INCH)
    made = layout((outer[0] * INCH, outer[1] * INCH), mat, "imperial", art_mm=art_mm)
    assert isinstance(made, MatPlan)
    return made


# Worked by hand: opening = art − 2 · overlap; side = (outer − opening) ÷ 2; top = (v − extra) ÷ 2 or v ÷ (1 + 4/3),
# "3 to 4" from the US Navy training manual NAVEDTRA 14066, p. 2-32. The landscape row is the worked example of
# a framing guide.
@pytest.mark.parametrize(
    ("art", "outer", "overlap", "borders", "opening", "side", "top", "bottom"),
    [
        ((5, 7), (8, 10), "1/8", EvenBorders(), (4.75, 6.75), 1.625, 1.625, 1.625),
        ((5, 7), (8, 10), "1/8", WeightedBorders(extra=inch("1/4")), (4.75, 6.75), 1.625, 1.5, 1.75),
        ((5, 7), (8, 10), "1/8", RatioBorders(bottom_to_top=4 / 3), (4.75, 6.75), 1.625, 1.392857, 1.857143),
        ((8, 10), (11, 14), "1/4", EvenBorders(), (7.5, 9.5), 1.75, 2.25, 2.25),
        ((8, 10), (11, 14), "1/4", RatioBorders(bottom_to_top=4 / 3), (7.5, 9.5), 1.75, 1.928571, 2.571429),
        ((8, 10), (11, 14), "1/8", WeightedBorders(extra=inch("1/2")), (7.75, 9.75), 1.625, 1.875, 2.375),
        ((10, 8), (14, 11), "1/8", EvenBorders(), (9.75, 7.75), 2.125, 1.625, 1.625),
    ],
)
def test_borders_around_a_print(
    art: tuple[float, float],
    outer: tuple[float, float],
    overlap: str,
    borders: Borders,
    opening: tuple[float, float],
    side: float,
    top: float,
    bottom: float,
) -> None:
    made = planned(outer, art, overlap, borders)
    assert made.window_mm == pytest.approx(inches(opening), abs=1e-9)
    four = made.borders
    assert (four.left, four.right) == pytest.approx((side * INCH, side * INCH), abs=1e-9)
    assert (four.top, four.bottom) == pytest.approx((top * INCH, bottom * INCH), abs=2e-5)
    assert four.left + made.window_mm[0] + four.right == pytest.approx(outer[0] * INCH, abs=1e-9)
    assert four.top + made.window_mm[1] + four.bottom == pytest.approx(outer[1] * INCH, abs=1e-9)
    assert made.print_mm == pytest.approx(inches(art), abs=1e-9)


def test_typed_borders_leave_the_window() -> None:
    made = planned((8, 10), None, "1/8", EvenBorders(border=inch("2")))
    assert made.window_mm == pytest.approx(inches((4, 6)))
    assert made.print_mm == pytest.approx(inches((4.25, 6.25)))
    four = CustomBorders(top=inch("1"), bottom=inch("2"), left=inch("1"), right=inch("3/2"))
    made = planned((8, 10), None, "1/8", four)
    assert made.window_mm == pytest.approx(inches((5.5, 7)))
    assert (made.borders.right, made.borders.bottom) == pytest.approx((1.5 * INCH, 2 * INCH))


def test_a_typed_window_wins_over_typed_borders() -> None:
    made = planned(
        (8, 10), (5, 7), "1/8", EvenBorders(border=inch("2")), window_width=inch("5"), window_height=inch("5")
    )
    assert made.window_mm == pytest.approx(inches((5, 5)))
    assert made.borders.top == pytest.approx(2.5 * INCH)


def test_a_double_mat_opens_by_twice_the_reveal() -> None:
    layers = (MatLayer(board="mat-4-ply"), MatLayer(board="mat-4-ply", colour="grey", reveal=inch("1/4")))
    made = planned((8, 10), (5, 7), "1/8", EvenBorders(), layers=layers)
    top, under = made.layers
    assert under.opening_mm == pytest.approx(inches((4.75, 6.75)))
    assert top.opening_mm == pytest.approx(inches((5.25, 7.25)))
    assert (top.reveal_mm, under.reveal_mm) == pytest.approx((0, 0.25 * INCH))
    assert made.narrowest_mm == pytest.approx(1.375 * INCH)


def test_a_floating_print_shows_whole() -> None:
    made = planned((11, 14), (8, 10), "-1/4", EvenBorders())
    assert made.floats
    assert made.window_mm == pytest.approx(inches((8.5, 10.5)))
    assert made.print_mm == pytest.approx(inches((8, 10)))
    assert made.hidden_mm == 0


def test_a_mat_without_board_or_without_any_measure_is_refused() -> None:
    outer = (200.0, 250.0)
    too_wide = layout(outer, Mat(borders=EvenBorders(border=Length.from_text("10 cm"))), "metric")
    assert too_wide == MatRefused("no-board")
    assert layout(outer, Mat(), "metric") == MatRefused("undecided")


def test_a_turned_piece_turns_a_typed_window_and_keeps_its_wide_border_below() -> None:
    mat = Mat(window_width=inch("4"), window_height=inch("6"), borders=WeightedBorders(extra=inch("1/2")))
    made = layout((10 * INCH, 8 * INCH), mat, "imperial", turned=True)
    assert isinstance(made, MatPlan)
    assert made.window_mm == pytest.approx(inches((6, 4)))
    assert made.borders.bottom - made.borders.top == pytest.approx(0.5 * INCH)


def test_a_bevel_of_45_degrees_widens_the_face() -> None:
    # 2 · 1.4 each way; 1.4 · √2 along the slope.
    face, slope = bevel_mm((120, 170), 1.4)
    assert face == pytest.approx((122.8, 172.8), abs=1e-9)
    assert slope == pytest.approx(1.98, abs=0.001)


# Framers' arithmetic: rabbet = content + a, sight = rabbet − 2 lip, outside = sight + 2 face.
@pytest.mark.parametrize(
    ("content", "face", "lip", "allowance", "outside", "sight"),
    [
        (inches((8, 10)), INCH, INCH / 4, INCH / 8, inches((9.625, 11.625)), inches((7.625, 9.625))),
        (inches((11, 14)), 0.75 * INCH, INCH / 4, INCH / 8, inches((12.125, 15.125)), inches((10.625, 13.625))),
        ((300, 400), 20, 6, 3, (331, 431), (291, 391)),
    ],
)
def test_a_frame_around_its_content(
    content: tuple[float, float],
    face: float,
    lip: float,
    allowance: float,
    outside: tuple[float, float],
    sight: tuple[float, float],
) -> None:
    _, seen, whole = frame_sizes(content, face, lip, allowance)
    assert seen == pytest.approx(sight, abs=1e-9)
    assert whole == pytest.approx(outside, abs=1e-9)
    # And the frame as measured on its outside gives the content back.
    frame = Frame(
        width=Length.of_mm(whole[0]),
        height=Length.of_mm(whole[1]),
        face=Length.of_mm(face),
        lip=Length.of_mm(lip),
        allowance=Length.of_mm(allowance),
    )
    assert frame.glass_mm == pytest.approx(content, abs=1e-9)


def test_the_stack_behind_the_lip() -> None:
    # 2 glass + 1.4 mat + 0.25 print + 2.5 backing, the usual thicknesses of the catalogue.
    frame = Frame(width=Length.from_text("40 cm"), height=Length.from_text("50 cm"), glazing="glass")
    parts = stack(frame, Mat(), usual())
    assert [part.what for part in parts] == ["glazing", "mat", "print", "backing"]
    backing = usual().backings["mdf"].usual_mm
    assert stack_mm(parts) == pytest.approx(2 + 1.4 + 0.25 + (backing or 0))
    thick = Frame(
        width=frame.width, height=frame.height, glazing="acrylic", glazing_thickness=Length.from_text("3 mm"),
        backing_thickness=Length.from_text("5 mm"),
    )  # fmt: skip
    assert stack_mm(stack(thick, None, usual())) == pytest.approx(3 + 0.25 + 5)
