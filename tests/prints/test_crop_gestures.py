"""A hand on the picture: what is under the pointer stays under it."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from composer.model import Crop
from composer.prints.crop_gestures import dragged, point_under, turned, zoomed
from composer.prints.cropping import crop_box

PIXELS = (6000, 4000)
SHAPE = (200.0, 250.0)

crops = st.builds(
    Crop,
    centre=st.tuples(st.floats(0.3, 0.7), st.floats(0.3, 0.7)),
    zoom=st.floats(3, 6),
    turn=st.sampled_from([0, 90, 180, 270]),
    tilt_deg=st.floats(-10, 10),
)


@given(crops, st.floats(-0.2, 0.2), st.floats(-0.2, 0.2))
def test_dragging_takes_the_pixel_along(crop: Crop, across: float, down: float) -> None:
    before = point_under(crop_box(PIXELS, crop, SHAPE), 0.4, 0.6)
    after = dragged(PIXELS, crop, SHAPE, across, down)
    there = point_under(crop_box(PIXELS, after, SHAPE), 0.4 + across, 0.6 + down)
    assert there == pytest.approx(before, abs=0.01)
    assert (after.zoom, after.turn, after.tilt_deg) == (crop.zoom, crop.turn, crop.tilt_deg)


@given(crops, st.floats(1.2, 3), st.floats(0, 1), st.floats(0, 1))
def test_zooming_holds_the_point_under_the_pointer(crop: Crop, factor: float, across: float, down: float) -> None:
    held = point_under(crop_box(PIXELS, crop, SHAPE), across, down)
    after = zoomed(PIXELS, crop, SHAPE, crop.zoom * factor, (across, down))
    assert point_under(crop_box(PIXELS, after, SHAPE), across, down) == pytest.approx(held, abs=0.01)
    assert after.zoom == pytest.approx(crop.zoom * factor)


def test_the_edge_of_the_picture_stops_the_hand() -> None:
    # 6 000 × 4 000 filling 200 × 250: 3 200 × 4 000 pixels, so the centre may go from 1 600 to 4 400.
    right = dragged(PIXELS, Crop(), SHAPE, -5.0, 3.0)
    assert right.centre == pytest.approx((4400 / 6000, 0.5))
    left = dragged(PIXELS, right, SHAPE, 5.0, 0.0)
    assert left.centre == pytest.approx((1600 / 6000, 0.5))
    # Coming back needs as much hand as there is picture, not the five widths that were pulled in vain.
    assert dragged(PIXELS, right, SHAPE, 0.25, 0.0).centre[0] == pytest.approx((4400 - 800) / 6000)


def test_zoom_has_its_ends_and_a_quarter_turn_comes_round() -> None:
    assert zoomed(PIXELS, Crop(zoom=2.0), SHAPE, 0.2).zoom == 1.0
    assert zoomed(PIXELS, Crop(), SHAPE, 1e6).zoom == 100.0
    crop = Crop(centre=(0.3, 0.4), zoom=2.0)
    assert turned(crop).turn == 90
    assert turned(crop, clockwise=False).turn == 270
    assert turned(turned(turned(turned(crop)))) == crop
