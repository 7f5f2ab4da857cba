"""The scale check's numbers: how fitting a page scales it, and what the two rulers then read."""

import pytest

from composer.paper.drawing import Area
from composer.paper.primitives import Line
from composer.paper.scale_check import CORRECTABLE, build, causes, fit_factor, rulers
from composer.paper.sheet_request import SheetRequest, SheetTooSmall
from tests.paper.sheet_projects import nine

A4, LETTER = (210.0, 297.0), (215.9, 279.4)


@pytest.mark.parametrize(
    ("page", "paper", "factor"),
    [
        (A4, LETTER, 0.940741),  # 279.4 / 297
        (LETTER, A4, 0.972673),  # 210 / 215.9
        (A4, (200.0, 287.0), 0.952381),  # 200 / 210
    ],
)
def test_fitting_takes_the_smaller_ratio(page: tuple[float, float], paper: tuple[float, float], factor: float) -> None:
    assert fit_factor(page, paper) == pytest.approx(factor, abs=1e-6)


def test_a_reading_of_97_3_is_beyond_correction_and_its_first_cause_is_letter_on_a4() -> None:
    read = 97.3 / 100
    assert abs(1 - 1 / read) > CORRECTABLE
    nearest = min(causes("A4", A4), key=lambda cause: abs(cause.factor - read))
    assert "Letter page fitted on A4" in nearest.words


def test_causes_are_sorted_from_the_mildest_and_name_both_directions() -> None:
    for name, size in (("A4", A4), ("Letter", LETTER)):
        factors = [cause.factor for cause in causes(name, size)]
        assert factors == sorted(factors, reverse=True)
        assert len(factors) == 6


@pytest.mark.parametrize("size", [A4, LETTER], ids=["A4", "letter"])
def test_the_rulers_are_180_by_250_on_both_usual_sheets(size: tuple[float, float]) -> None:
    area = Area(10, 10, size[0] - 10, size[1] - 10)
    found = rulers(area, imperial=False, scale=(1.0, 1.0))
    assert (found.across, found.up) == (180.0, 250.0)
    inches = rulers(area, imperial=True, scale=(1.0, 1.0))
    assert (inches.across, inches.up) == pytest.approx((7 * 25.4, 10 * 25.4))


def _longest(lines: list[Line], *, upright: bool) -> float:
    return max(
        abs(line.y2 - line.y1) if upright else abs(line.x2 - line.x1)
        for line in lines
        if (line.x1 == line.x2) == upright and min(line.x1, line.y1) < 20
    )


def test_rulers_are_drawn_longer_by_the_correction() -> None:
    # 100 mm that read 99.7 across and 100.2 up: factors 1.0030090 and 0.9980040.
    scale = (100 / 99.7, 100 / 100.2)
    page = build(nine(), SheetRequest(A4, scale=scale))[0]
    lines = [item for item in page.items if isinstance(item, Line)]
    assert _longest(lines, upright=False) == pytest.approx(180 * 1.0030090, abs=1e-3)
    assert _longest(lines, upright=True) == pytest.approx(250 * 0.9980040, abs=1e-3)


def test_paper_too_small_is_refused_with_what_it_needs() -> None:
    with pytest.raises(SheetTooSmall, match="128 × 190"):
        build(nine(), SheetRequest((148.0, 210.0), name="A5"))
