"""Pixels per inch: what an eye needs, what a crop gives."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from composer.model import Crop
from composer.prints.cropping import CropBox, crop_box, fitted_mm, unturned
from composer.prints.sharpness import (
    acuity_distance_mm,
    acuity_ppi,
    largest_mm,
    largest_stock,
    needed_ppi,
    ppi_of,
    verdict,
)
from composer.prints.stock import StockSize, stock_sizes

INCH = 25.4


# ISO 8596: acuity 1.0 resolves one minute of arc: 25.4 ÷ (d · tan 1′).
# The 24 in and 300 ppi pairs are worked on a public page on visual acuity and photographs.
@pytest.mark.parametrize(
    ("distance_mm", "ppi"),
    [(250, 349.27), (300, 291.06), (24 * INCH, 143.24), (500, 174.64), (1000, 87.32), (1500, 58.21), (2000, 43.66)],
)
def test_what_an_eye_resolves(distance_mm: float, ppi: float) -> None:
    assert acuity_ppi(distance_mm) == pytest.approx(ppi, abs=0.01)
    assert acuity_ppi(distance_mm, 2.0) == pytest.approx(2 * ppi, abs=0.02)
    assert acuity_distance_mm(ppi) == pytest.approx(distance_mm, rel=1e-4)


def test_300_ppi_are_not_seen_beyond_eleven_and_a_half_inches() -> None:
    assert acuity_distance_mm(300) / INCH == pytest.approx(11.46, abs=0.01)


def test_needed_is_half_as_much_again_and_never_below_100() -> None:
    assert needed_ppi(1000) == pytest.approx(1.5 * 87.32, abs=0.02)
    assert needed_ppi(3000) == 100
    assert needed_ppi(None) == 100


# 6 000 × 4 000 pixels: used pixels, ppi, share lost; by hand from width ÷ inches and height ÷ inches.
@pytest.mark.parametrize(
    ("size_in", "used", "ppi", "lost"),
    [
        ((6, 4), (6000, 4000), 1000, 0),
        ((7, 5), (5600, 4000), 800, 0.0667),
        ((10, 8), (5000, 4000), 500, 0.1667),
        ((12, 8), (6000, 4000), 500, 0),
        ((14, 11), (5090.909, 4000), 363.636, 0.1515),
        ((20, 16), (5000, 4000), 250, 0.1667),
        ((9, 8), (4500, 4000), 500, 0.25),
    ],
)
def test_filling_a_print(size_in: tuple[float, float], used: tuple[float, float], ppi: float, lost: float) -> None:
    box = crop_box((6000, 4000), Crop(), size_in)
    size_mm = (size_in[0] * INCH, size_in[1] * INCH)
    assert (box.width, box.height) == pytest.approx(used, abs=0.01)
    assert ppi_of((box.width, box.height), size_mm) == pytest.approx(ppi, abs=0.01)
    assert box.lost == pytest.approx(lost, abs=1e-4)


def test_fitting_a_print_leaves_white_bars() -> None:
    # 6 000 × 4 000 in 10 × 8 in: 10 × 6.6667 in at 600 ppi, 0.6667 in white above and below.
    width, height = fitted_mm((6000, 4000), (10 * INCH, 8 * INCH))
    assert (width / INCH, height / INCH) == pytest.approx((10, 6.6667), abs=1e-4)
    assert (8 - height / INCH) / 2 == pytest.approx(0.6667, abs=1e-4)
    assert 6000 / (width / INCH) == pytest.approx(600)


@pytest.mark.parametrize(
    ("pixels", "ppi", "inches"),
    [
        ((6000, 4000), 300, (20, 13.333)),
        ((6000, 4000), 150, (40, 26.667)),
        ((4000, 3000), 200, (20, 15)),
        ((11648, 8736), 150, (77.653, 58.24)),
    ],
)
def test_the_largest_print_a_picture_carries(pixels: tuple[int, int], ppi: float, inches: tuple[float, float]) -> None:
    width, height = largest_mm(pixels, ppi)
    assert (width / INCH, height / INCH) == pytest.approx(inches, abs=0.001)


def test_the_largest_stock_size() -> None:
    sizes = stock_sizes("imperial")
    # 1 800 × 1 200 pixels at 100 ppi are 18 × 12 in; 12 × 18 is sold.
    largest = largest_stock((1800, 1200), 100, sizes)
    assert largest is not None
    assert largest.id == "12x18in"
    assert largest_stock((200, 200), 100, sizes) is None


def test_words_for_a_density() -> None:
    assert [verdict(ppi) for ppi in (300, 299, 150, 149, 100, 99)] == [
        "crisp", "good", "fine", "from-1-m", "from-1-m", "soft",
    ]  # fmt: skip


def test_512_pixels_on_8_inches_are_too_few() -> None:
    assert ppi_of((512, 512), (8 * INCH, 8 * INCH)) == pytest.approx(64)


@given(
    st.integers(1, 20000),
    st.integers(1, 20000),
    st.floats(0, 1),
    st.floats(0, 1),
    st.floats(1, 100),
    st.sampled_from([0, 90, 180, 270]),
    st.floats(-10, 10),
    st.floats(10, 1000),
    st.floats(10, 1000),
)
def test_a_crop_never_leaves_the_picture_and_keeps_its_shape(
    wide: int, high: int, x: float, y: float, zoom: float, turn: int, tilt: float, w: float, h: float
) -> None:
    box = crop_box((wide, high), Crop(centre=(x, y), zoom=zoom, turn=turn, tilt_deg=tilt), (w, h))  # type: ignore[arg-type]
    assert box.width / box.height == pytest.approx(w / h, rel=1e-6)
    slack = 1e-6 * max(wide, high)
    for a, b in box.corners:
        assert -slack <= a <= box.pixels[0] + slack
        assert -slack <= b <= box.pixels[1] + slack


def test_zoom_centre_and_quarter_turns() -> None:
    box = crop_box((6000, 4000), Crop(centre=(0, 0), zoom=2), (3, 2))
    assert (box.width, box.height, box.centre) == (3000, 2000, (1500, 1000))
    # Turned clockwise the upper left corner comes to the upper right: 4 000 × 6 000 pixels.
    box = crop_box((6000, 4000), Crop(centre=(0, 0), zoom=2, turn=90), (2, 3))
    assert (box.width, box.height, box.centre) == (2000, 3000, (3000, 1500))
    for turn in (0, 90, 180, 270):
        inside = crop_box((6000, 4000), Crop(centre=(0.4, 0.55), zoom=9, turn=turn), (2, 3))
        unit = (inside.centre[0] / inside.pixels[0], inside.centre[1] / inside.pixels[1])
        assert unturned(unit, turn) == pytest.approx((0.4, 0.55))


def test_a_tilt_needs_pixels_around_the_crop() -> None:
    # A square tilted by t fits a square picture when side · (cos t + sin t) = picture's side.
    box = crop_box((1000, 1000), Crop(tilt_deg=10), (1, 1))
    assert box.width == pytest.approx(1000 / (0.984807753 + 0.173648178))


def test_the_corners_of_a_crop_by_hand() -> None:
    # A 400 × 200 part of a picture around (300, 250), level: 300 ± 200 and 250 ± 100, clockwise from the upper left.
    level = CropBox((1000, 800), (300, 250), 400, 200, 0, 0.0)
    assert level.corners == ((100, 150), (500, 150), (500, 350), (100, 350))
    # Tilted by t the edge to the right runs along (cos t, −sin t), the one down along (sin t, cos t); t = 90° for a
    # plain check of signs: right is (0, −1), down is (1, 0).
    upright = CropBox((1000, 800), (300, 250), 400, 200, 0, 90.0)
    wanted = ((200, 450), (200, 50), (400, 50), (400, 450))
    for corner, by_hand in zip(upright.corners, wanted, strict=True):
        assert corner == pytest.approx(by_hand)


def test_a_whole_picture_fitted_into_a_size_leaves_white_on_two_sides() -> None:
    # 600 × 400 into 150 × 150: scale 1/4; 400 × 600 into 300 × 150: scale 1/4.
    assert fitted_mm((600, 400), (150, 150)) == (150, 100)
    assert fitted_mm((400, 600), (300, 150)) == (100, 150)


@pytest.mark.parametrize(
    ("ppi", "word"),
    [(300, "crisp"), (299.9, "good"), (200, "good"), (199.9, "fine"), (150, "fine"), (149.9, "from-1-m"),
     (100, "from-1-m"), (99.9, "soft")],
)  # fmt: skip
def test_the_words_for_a_density_change_at_300_200_150_and_100(ppi: float, word: str) -> None:
    """Trade guides agree within a band (common practice, no source)."""
    assert verdict(ppi) == word


def test_a_distance_for_an_acuity_is_the_other_way_round() -> None:
    # One minute of arc at 1 m is 1000 · tan(1/60°) = 0.290888 mm; 25.4 / 0.290888 = 87.3187 per inch.
    assert acuity_distance_mm(87.3187) == pytest.approx(1000, rel=1e-5)
    assert acuity_distance_mm(87.3187, 2.0) == pytest.approx(2000, rel=1e-5)  # sharper eyes see pixels from farther
    assert acuity_ppi(1000, 2.0) == pytest.approx(2 * 87.3187, rel=1e-5)


def test_the_largest_stock_size_is_the_first_of_equal_area_and_may_just_be_carried() -> None:
    sizes = (StockSize("one", 100, 200), StockSize("two", 200, 100), StockSize("big", 300, 300))
    # 100 × 200 mm at 254 ppi are 1000 × 2000 pixels, to the last one.
    found = largest_stock((1000, 2000), 254, sizes)
    assert found is not None and found.id == "one"
    assert largest_stock((999, 2000), 254, sizes) is None
