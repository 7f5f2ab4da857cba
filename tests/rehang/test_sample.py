"""The sample wall that changes: nine pieces up since January, eleven wanted in September; worked by hand."""

from decimal import Decimal
from pathlib import Path

import pytest

from composer.costing.costs import costs_of
from composer.costing.difference import costs_of_change
from composer.model import Project
from composer.projectfile import store
from composer.rehang.hunting import hunted_places
from composer.rehang.plan import offer_shift, plan_rehang

SAMPLE = Path(__file__).resolve().parents[2] / "samples" / "changing-wall.wallwright"


@pytest.fixture(scope="module")
def project() -> Project:
    return store.load(SAMPLE).project


def test_at_least_six_of_nine_holes_serve_again_within_two_millimetres(project: Project) -> None:
    """Holes: 1, 2 and 4 have two each, 3, 5 and 6 one: nine.

    1, 2, 3, 5 stay: 2 + 2 + 1 + 1 = 6. 6 moves left, 4 comes down. Rope (10) wants its notch 12 below its
    top edge at 1147 + 305 = 1452, so 1440 and its hole 1 lower (a nail's upper side), at the middle of
    752 … 1006, 879. The nail of 6 is at 752 + 127 = 879 and 1249 + 203 − 14 − 1 = 1437: 2 mm lower, so
    it serves. Seven of nine; both of 4's are filled; new ones for 6, 11 and 12.
    """
    plan = plan_rehang(project, project.walls[0], project.arrangement, tolerance_mm=2.0)
    assert len(project.as_hung.holes) == 9
    assert plan.used_again == 7
    assert plan.new_holes == 3
    assert sorted(one.hole.at for one in plan.fill) == [(2475.0, 1784.0), (2715.0, 1784.0)]
    rope = next(change for change in plan.changes if change.number == 10)
    assert rope.off == pytest.approx((0.0, -2.0))
    assert [change.number for change in plan.of("stay")] == [1, 2, 3, 5, 7, 8]
    assert [change.number for change in plan.of("move")] == [6, 9]


def test_the_order_of_work_never_lays_a_piece_aside(project: Project) -> None:
    """6 goes before 10 takes its nail, 4 is down before 11 comes, 9 makes room for 12."""
    plan = plan_rehang(project, project.walls[0], project.arrangement)
    acts = [(work.act, project.piece_by_key[work.piece].number) for work in plan.work]
    order = [number for _, number in acts]
    assert plan.most_aside == 0
    assert acts[0] == ("down", 4)
    assert order.index(6) < order.index(10)
    assert order.index(9) < order.index(12)


def test_what_the_change_costs(project: Project) -> None:
    """By hand: frames 3 · 4.00 = 12.00; one tube of filler 3.20; bumpers for 10, 11, 12: six, a pack 1.80.

    Prints: glass 254 − 40 + 12 − 3 = 223 by 274; 350 − 40 + 9 = 319 by 198 and 223: no 8 × 10 covers, so these have
    no price. Strips for 9: two pairs, two in the drawer. Hooks: two one-nail hooks, four in the drawer.
    Nails: 10 hangs on the nail 6 leaves, so one more is bought; it has no price.
    """
    plan = plan_rehang(project, project.walls[0], project.arrangement)
    costs = costs_of_change(project, plan, project.arrangement)
    assert costs.total == Decimal("17.00")
    paid = {line.need.item: line.cost for line in costs.lines}
    assert paid == {
        "frame": Decimal("12.00"),
        "bumper": Decimal("1.80"),
        "filler": Decimal("3.20"),
        "strips-medium": Decimal(0),
        "hook-one-nail": Decimal(0),
    }
    nails = next(need for need in costs.unpriced if need.item == "nail-board")
    assert (nails.count, nails.pieces) == (1, (10,))


def test_no_shift_of_the_whole_saves_more(project: Project) -> None:
    """Six pieces stay: any shift past the tolerance loses their holes."""
    assert offer_shift(project, project.walls[0], project.arrangement) is None


def test_what_to_look_for_second_hand(project: Project) -> None:
    """10, 11 and 12 are not owned: their places are what the card shows, with the planned frame inside each."""
    places = hunted_places(project, project.walls[0], project.arrangement)
    assert [place.number for place in places] == [10, 11, 12]
    for place in places:
        assert place.piece is not None
        assert place.takes(*place.piece.size_mm())


def test_the_shopping_list_of_a_wall_that_is_up_has_only_what_is_new(project: Project) -> None:
    """Hooks and strips of the six that stay are in the wall; 9 moves and takes two pairs, 10 to 12 take three fixings."""
    costs = costs_of(project)
    strips = next(line for line in costs.lines if line.group == "strips")
    assert (strips.need.pieces, strips.need.count, strips.cost) == ((9,), 2, Decimal(0))
    fixings = {line.need.item: line.need.pieces for line in costs.lines if line.group == "fixing"}
    fixings |= {need.item: need.pieces for need in costs.unpriced if need.group == "fixing"}
    assert fixings == {"hook-one-nail": (11, 12), "nail-board": (10,)}
