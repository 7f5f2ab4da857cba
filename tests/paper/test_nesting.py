"""Small drawings several to a sheet: capacities by hand, and any mixture against the plain facts of packing."""

from itertools import combinations
from math import ceil

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from composer.paper.nesting import Part, nest

IN = 25.4
A4, LETTER = (190.0, 277.0), (8.5 * IN - 20, 11 * IN - 20)


def ways(area: tuple[float, float]) -> list[tuple[float, float]]:
    return [area, (area[1], area[0])]


def parts(*sizes: tuple[float, float]) -> list[Part]:
    return [Part(number, size, (size[1], size[0])) for number, size in enumerate(sizes, 1)]


@pytest.mark.parametrize(
    ("size", "area", "capacity"),
    # By hand: floor((W + gap) / (w + gap)) · floor((H + gap) / (h + gap)), the better of both ways.
    [
        ((3.5 * IN, 5 * IN), A4, 4),
        ((3.5 * IN, 5 * IN), LETTER, 4),  # 2 · 127 + 5 = 259 of 259.4
        ((100, 150), A4, 2),
        ((100, 150), LETTER, 2),
        ((4 * IN, 6 * IN), A4, 2),
        ((4 * IN, 6 * IN), LETTER, 2),
        ((5 * IN, 7 * IN), A4, 2),
        ((5 * IN, 7 * IN), LETTER, 2),
    ],
)
def test_so_many_of_one_size_lie_on_a_sheet(
    size: tuple[float, float], area: tuple[float, float], capacity: int
) -> None:
    assert nest(parts(*[size] * capacity), ways(area)).sheets == 1
    assert nest(parts(*[size] * (capacity + 1)), ways(area)).sheets == 2


@pytest.mark.parametrize(("gap", "sheets"), [(5.0, 1), (6.0, 2)])
def test_a_millimetre_of_gap_may_cost_a_sheet(gap: float, sheets: int) -> None:
    # Letter inside 10 mm is 259.4 high: 2 · 127 + 5 = 259 fits, 2 · 127 + 6 = 260 does not.
    assert nest(parts(*[(3.5 * IN, 5 * IN)] * 4), ways(LETTER), gap).sheets == sheets


@pytest.mark.parametrize("area", [A4, LETTER])
def test_a_mixture_is_packed_as_well_as_its_area_allows(area: tuple[float, float]) -> None:
    # 4 × 6, twice 3.5 × 5 and 5 × 7 in hold 60 645 mm²; a sheet has 52 630 (A4) or 50 816 (letter): two at least.
    mixed = [(4 * IN, 6 * IN), (3.5 * IN, 5 * IN), (3.5 * IN, 5 * IN), (5 * IN, 7 * IN)]
    assert sum(w * h for w, h in mixed) == pytest.approx(60_645, abs=1)
    found = nest(parts(*mixed), ways(area))
    assert (found.sheets, found.least, found.is_best) == (2, 2, True)


def test_a_part_larger_than_every_sheet_is_an_error() -> None:
    with pytest.raises(ValueError):
        nest(parts((300, 300)), ways(A4))


@settings(max_examples=80, deadline=None)
@given(st.lists(st.tuples(st.floats(20, 185), st.floats(20, 270)), max_size=9), st.floats(0, 12))
def test_parts_keep_apart_stay_on_the_sheet_and_all_come_once(sizes: list[tuple[float, float]], gap: float) -> None:
    found = nest(parts(*sizes), ways(A4), gap)
    assert sorted(place.key for place in found.places) == list(range(1, len(sizes) + 1))
    for place in found.places:
        size = sizes[place.key - 1]
        assert (place.width, place.height) == (size if not place.rotated else (size[1], size[0]))
        width, height = ways(A4)[found.ways[place.sheet]]
        assert place.left >= 0
        assert place.bottom >= 0
        assert place.left + place.width <= width + 1e-5
        assert place.bottom + place.height <= height + 1e-5
    for a, b in combinations(found.places, 2):
        if a.sheet == b.sheet:
            apart_across = max(a.left - (b.left + b.width), b.left - (a.left + a.width))
            apart_up = max(a.bottom - (b.bottom + b.height), b.bottom - (a.bottom + a.height))
            assert max(apart_across, apart_up) >= gap - 1e-5
    assert {place.sheet for place in found.places} == set(range(found.sheets))
    area = sum(w * h for w, h in sizes)
    assert found.sheets >= ceil(area / (190 * 277) - 1e-9)
