"""Stretches found again by where they are, against looking at every one of them."""

import math

from hypothesis import given
from hypothesis import strategies as st

from composer.geometry.bands import Bands

places = st.integers(-5000, 5000).map(lambda tenths: tenths / 10) | st.sampled_from([0.0, -1e-9, 1e7])
stretches = st.lists(st.tuples(places, st.floats(0, 900)).map(lambda one: (one[0], one[0] + one[1])), max_size=40)


@given(stretches, places, st.floats(0, 3000) | st.just(math.inf), st.none() | st.floats(0.1, 2000))
def test_every_stretch_that_meets_the_one_asked_for_is_found_in_order(
    given_: list[tuple[float, float]], low: float, length: float, width: float | None
) -> None:
    found = Bands(given_, width).near(low, low + length)
    meeting = [place for place, (start, end) in enumerate(given_) if start <= low + length and end >= low]
    assert set(meeting) <= set(found) <= set(range(len(given_)))
    assert found == sorted(set(found))


def test_one_that_reaches_everywhere_is_always_found() -> None:
    bands = Bands([(0, 10), (-1e9, 1e9), (500, 510)], 10)
    assert bands.near(700, 705) == [1]
    assert bands.near(502, 503) == [1, 2]


def test_among_many_only_those_near_are_looked_at() -> None:
    # A thousand stretches of 100 one behind another; 300 meet at most five, and a band more on each side.
    row = [(100.0 * place, 100.0 * place + 100) for place in range(1000)]
    assert len(Bands(row).near(50_000, 50_300)) <= 7
