"""What is said of an arrangement: sentences and figures of layouts laid by hand."""

import pytest

from composer.arranging.quality import Quality, quality_of
from composer.arranging.true_up import Hung
from composer.geometry.rectangle import Rectangle


def said(*boxes: Rectangle, furniture: Rectangle | None = None) -> Quality:
    hung = [Hung(number, box) for number, box in zip((3, 5, 8, 9), boxes, strict=False)]
    found = quality_of(hung, 50, 1450, furniture=furniture)
    assert found is not None
    return found


def plainly(sentence: str) -> str:
    return sentence.replace("\xa0", " ").replace(" ", " ")


def test_all_gaps_even_and_one_near_miss_by_name() -> None:
    quality = said(Rectangle.at(1000, 1200, 400, 500), Rectangle.at(1450, 1200, 300, 504))
    assert plainly(quality.gaps.sentence) == "All gaps are 50 mm."
    assert plainly(quality.headline) == "All gaps are 50 mm. 3 and 5 differ by 4 mm at the top."
    assert [(one.first, one.second) for one in quality.near_misses] == [(3, 5)]


def test_a_gap_that_looks_like_a_mistake_is_counted() -> None:
    quality = said(
        Rectangle.at(1000, 1200, 400, 500), Rectangle.at(1450, 1200, 300, 500), Rectangle.at(1806, 1200, 300, 500)
    )
    assert plainly(quality.gaps.sentence) == "1 of 2 gaps are 50 mm; 1 looks like a mistake (56 mm to 56 mm)."
    # Two facing stretches of 500 mm each, one of them at 50.
    assert quality.figures.exact_share == pytest.approx(0.5)


def test_height_against_the_eye_line_and_over_furniture() -> None:
    assert said(Rectangle.at(1000, 1200, 400, 500)).height.sentence == "Its middle hangs on the eye line."
    above = said(Rectangle.at(1000, 1300, 400, 500)).height.sentence
    assert plainly(above) == "Its middle hangs 100 mm above the eye line."
    sofa = Rectangle(0, 0, 2000, 850)
    over = said(Rectangle.at(500, 1050, 1000, 500), furniture=sofa).height.sentence
    assert plainly(over) == "It hangs 200 mm above the furniture and is 50 % as wide."


def test_balance_by_area() -> None:
    # 500 × 500 at the left, 250 × 250 at the right of a group 800 wide: centroid by the law of the lever.
    quality = said(Rectangle.at(0, 1200, 500, 500), Rectangle.at(550, 1200, 250, 250))
    lever = (250000 * 250 + 62500 * 675) / 312500
    assert quality.figures.balance[0] == pytest.approx((lever - 400) / 800)
    assert quality.balance.sentence == "The left side is heavier."


def test_nothing_hung_nothing_said() -> None:
    assert quality_of([], 50, 1450) is None
    assert said(Rectangle.at(0, 1200, 500, 500)).headline == "One piece hangs by itself."
