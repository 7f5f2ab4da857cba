"""Uneven gaps and near misses between neighbours: limits by hand, from the definitions written down with them."""

import pytest

from composer.findings import check
from tests.findings.test_findings import at, brief, piece, project, value


@pytest.mark.parametrize(
    ("left", "found"),
    [
        (550.0, False),  # 50 wanted, 50 there
        (550.5, False),  # half a millimetre is what pencil and level reach
        (553.0, True),
        (544.0, True),  # too narrow
        (579.0, True),  # 79: under 1.6 times the gap it looks like a mistake
        (581.0, False),  # 81: looks meant
        (700.0, False),
    ],
)
def test_a_gap_is_uneven_when_it_looks_like_a_mistake(left: float, found: bool) -> None:
    codes = [finding.code for finding in check(project([piece(1), piece(2)], [at(1, 100, 1000), at(2, left, 1000)]))]
    assert codes == (["gap-uneven"] if found else [])


@pytest.mark.parametrize(
    ("bottom", "edges"),
    [
        (1000.0, []),
        (1000.4, []),
        (1004.0, ["high", "low"]),
        (1009.0, ["high", "low"]),
        (1011.0, []),
    ],
)
def test_edges_that_nearly_line_up_are_near_misses(bottom: float, edges: list[str]) -> None:
    found = check(project([piece(1), piece(2)], [at(1, 100, 1000), at(2, 550, bottom)]))
    assert sorted(value(one, "edge") for one in found if one.code == "near-miss") == edges


def test_frames_of_other_heights_miss_at_one_edge_only() -> None:
    found = check(project([piece(1), piece(2, 400, 504)], [at(1, 100, 1000), at(2, 550, 1000)]))
    assert brief(found) == [("note", "near-miss", (1, 2))]
    assert (value(found[0], "edge"), value(found[0], "off_mm")) == ("high", 4)


def test_pieces_far_from_each_other_are_no_neighbours() -> None:
    assert check(project([piece(1), piece(2)], [at(1, 100, 1000), at(2, 800, 1004)])) == ()


def test_a_third_piece_between_hides_two_from_each_other() -> None:
    pieces = [piece(1), piece(2, 10, 500), piece(3)]
    found = check(project(pieces, [at(1, 100, 1000), at(2, 550, 1000), at(3, 610, 1000)]))
    assert "gap-uneven" not in {one.code for one in found if one.pieces == (1, 3)}
