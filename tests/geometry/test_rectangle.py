"""Rectangles against shapely's boxes."""

from hypothesis import given
from hypothesis import strategies as st
from shapely import box

from composer.geometry.rectangle import Rectangle

rectangles = st.builds(Rectangle.at, *[st.integers(-50, 50).map(float)] * 2, *[st.integers(1, 60).map(float)] * 2)


@given(rectangles, rectangles)
def test_meeting_and_uniting_agree_with_the_referee(one: Rectangle, other: Rectangle) -> None:
    assert one.meets(other) == (box(*one).intersection(box(*other)).area > 0)
    assert tuple(one.united(other)) == box(*one).union(box(*other)).bounds


@given(rectangles, st.integers(1, 9), st.integers(-9, 9))
def test_growing_and_moving(one: Rectangle, margin: int, step: int) -> None:
    assert one.grown(margin).width == one.width + 2 * margin
    assert one.moved(step, -step).moved(-step, step) == one
    assert one.holds(*one.centre)
