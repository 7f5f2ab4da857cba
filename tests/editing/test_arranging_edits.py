"""Edits that adopt an arrangement, true it up, mend it and keep it while sizes and gap change."""

from dataclasses import replace

import msgspec
import pytest

from composer.arranging.from_project import quality_on, task_of
from composer.arranging.measures import distance
from composer.arranging.patterns import arrange
from composer.editing.arranging_edits import (
    accept_true_up,
    adopt,
    keeping,
    mend,
    shift_group,
    swap_keeping,
    truing_up,
)
from composer.editing.edits import EditRefused
from composer.editing.placing import Spot, lock, move, put
from composer.editing.project_edits import add_arrangement, set_gap
from composer.editing.record_edits import change_frame, change_wall
from composer.editing.relations import holds, places_of
from composer.geometry.rectangle import Rectangle
from composer.model import Arrangement, Frame, Obstacle, Piece, Project, Wall
from composer.units import Length
from tests.arranging import referee
from tests.arranging.frame_sets import frame_set

WALL = ((0.0, 0.0), (4200.0, 0.0), (4200.0, 2500.0), (0.0, 2500.0))


def project(count: int = 7, obstacles: tuple[Obstacle, ...] = ()) -> Project:
    pieces = tuple(
        Piece(
            key=f"p{size.number}",
            number=size.number,
            name=f"piece {size.number}",
            frame=Frame(width=Length.of_mm(size.width), height=Length.of_mm(size.height)),
        )
        for size in frame_set(count, 1)
    )
    return Project(
        title="home",
        next_key=500,
        next_number=100,
        walls=(
            Wall(key="w200", name="wall", width=Length.of_mm(4200), height=Length.of_mm(2500), obstacles=obstacles),
        ),
        pieces=pieces,
        arrangements=(Arrangement(key="h300", name="first", gap=Length.of_mm(50)),),
        current_arrangement="h300",
    )


def arranged(count: int = 7) -> Project:
    start = project(count)
    task = task_of(start, "w200")
    return adopt(start, "w200", task, arrange(task, "salon", effort=0.1)).run(start)


def boxes(of: Project) -> dict[str, Rectangle]:
    return {key: box for key, (_, box) in places_of(of, of.arrangement).items()}


def true_relations(of: Project) -> bool:
    places = places_of(of, of.arrangement)
    return all(holds(one, of, of.arrangement, places) for one in of.arrangement.relations)


def test_adopting_hangs_everything_and_stores_why() -> None:
    after = arranged()
    assert len(after.placement_by_piece) == 7
    assert after.arrangement.made_by is not None and after.arrangement.made_by.pattern == "salon"
    assert len(after.arrangement.relations) >= 2 * 7 - 2
    assert true_relations(after)


def test_an_old_answer_is_not_forced_on_changed_pieces() -> None:
    start = project()
    task = task_of(start, "w200")
    edit = adopt(start, "w200", task, arrange(task, "salon", effort=0.1))
    changed = change_frame("p3", "wider", width=Length.of_mm(333)).run(start)
    assert task_of(changed, "w200").fingerprint != task.fingerprint
    with pytest.raises(EditRefused):
        edit.run(changed)


def test_the_gap_slider_keeps_the_arrangement() -> None:
    before = arranged()
    after = keeping(set_gap(Length.of_mm(53))).run(before)
    old, new = boxes(before), boxes(after)
    assert distance([old[key] for key in old], [new[key] for key in old]) <= 0.01
    assert referee.violations(list(new.values()), 53, WALL) == []
    assert referee.exact_share(list(new.values()), 53) >= referee.exact_share(list(old.values()), 50) - 0.03
    assert true_relations(after) and len(after.arrangement.relations) >= 2 * 7 - 2


def test_a_frame_three_millimetres_wider_keeps_it_too() -> None:
    before = arranged()
    width = before.piece_by_key["p3"].frame.width.mm + 3
    after = keeping(change_frame("p3", "wider", width=Length.of_mm(width))).run(before)
    old, new = boxes(before), boxes(after)
    assert distance([old[key] for key in old], [new[key] for key in old]) <= 0.01
    assert referee.violations(list(new.values()), 50, WALL) == []


def test_swapped_pieces_are_solved_for_their_sizes() -> None:
    before = arranged()
    after = swap_keeping(before, "p2", "p5").run(before)
    old, new = boxes(before), boxes(after)
    assert referee.violations(list(new.values()), 50, WALL) == []
    for one, other in (("p2", "p5"), ("p5", "p2")):
        (x, y), (old_x, old_y) = new[one].centre, old[other].centre
        assert abs(x - old_x) + abs(y - old_y) < abs(new[one].centre[0] - old[one].centre[0]) + 400
    assert true_relations(after)


def test_locked_pieces_stay_through_all_of_it() -> None:
    before = lock(arranged(), ["p1"]).run(arranged())
    after = keeping(set_gap(Length.of_mm(54))).run(before)
    assert boxes(after)["p1"] == boxes(before)["p1"]
    assert referee.violations(list(boxes(after).values()), 54, WALL) == []


def test_true_up_is_shown_first_and_then_accepted() -> None:
    start = arranged()
    loose = move(start, ["p4"], 9.0, -7.0).run(start)
    answer = truing_up(loose, "w200")
    assert {one.number for one in answer.moves} == {4}
    (one,) = answer.moves
    assert (one.dx, one.dy) == pytest.approx((-9, 7), abs=1e-3)
    after = accept_true_up(loose, "w200", answer).run(loose)
    assert boxes(after)["p4"].left == pytest.approx(boxes(start)["p4"].left, abs=1e-3)
    again = truing_up(after, "w200")
    assert again.moves == () and accept_true_up(after, "w200", again).run(after) is after


def test_true_up_of_what_cannot_be_is_refused_by_name() -> None:
    start = project(2)
    lying = put(start, {"p1": Spot("w200", 1000, 1000), "p2": Spot("w200", 1010, 1010)}).run(start)
    with pytest.raises(EditRefused, match="#1"):
        truing_up(lying, "w200")


def test_one_click_mends_a_near_miss() -> None:
    start = project(2)
    first, second = start.pieces
    width, height = first.size_mm()
    other = second.size_mm()[1]
    spots = {"p1": Spot("w200", 1000, 1200), "p2": Spot("w200", 1050 + width, 1200 + height - other + 4)}
    hung = put(start, spots).run(start)
    quality = quality_on(hung, "w200")
    assert quality is not None
    (miss,) = [one for one in quality.near_misses if one.miss.edge == "high"]
    after = mend("w200", hung.piece_by_number[miss.first].key, hung.piece_by_number[miss.second].key, miss.miss).run(
        hung
    )
    assert boxes(after)["p1"].top == pytest.approx(boxes(after)["p2"].top)
    assert boxes(after)["p2"].left - boxes(after)["p1"].right == pytest.approx(50)


def test_pieces_kept_where_they_are_and_pieces_up_are_not_moved() -> None:
    before = arranged()
    task = task_of(before, "w200", keep=["p1", "p2"])
    assert {one.number for one in task.still} == {1, 2}
    assert {size.number for size in task.sizes} == {3, 4, 5, 6, 7}
    found = arrange(replace(task), "salon", seed=5, effort=0.1)
    after = adopt(before, "w200", task, found).run(before)
    assert all(boxes(after)[key] == boxes(before)[key] for key in ("p1", "p2"))
    assert referee.violations(list(boxes(after).values()), 50, WALL) == []


def test_other_walls_are_left_alone() -> None:
    start = project()
    second = Wall(key="w201", name="other", width=Length.of_mm(3000), height=Length.of_mm(2500))
    two = msgspec.structs.replace(start, walls=(*start.walls, second))
    hung = put(two, {"p7": Spot("w201", 500, 1200)}).run(two)
    task = task_of(hung, "w200")
    assert {size.number for size in task.sizes} == {1, 2, 3, 4, 5, 6}
    after = adopt(hung, "w200", task, arrange(task, "block", effort=0.05)).run(hung)
    assert after.placement_by_piece["p7"] == hung.placement_by_piece["p7"]


def test_two_arrangements_are_compared_by_their_figures() -> None:
    first = arranged()
    both = add_arrangement("second", copy_of="h300").run(first)
    loose = move(both, ["p4"], 9.0, -7.0).run(both)
    old, new = quality_on(loose, "w200", "h300"), quality_on(loose, "w200")
    assert old is not None and new is not None
    assert old.figures.exact_share > new.figures.exact_share
    assert old.headline != new.headline


def test_a_group_on_the_eye_line_is_lifted_with_it() -> None:
    before = arranged()
    higher = change_wall("w200", "eye line", lambda wall: msgspec.structs.replace(wall, eye_line=Length.of_mm(1500)))
    after = keeping(higher).run(before)
    old, new = boxes(before), boxes(after)
    assert all(new[key].bottom - old[key].bottom == pytest.approx(50, abs=0.01) for key in old)
    assert all(new[key].left == pytest.approx(old[key].left, abs=0.01) for key in old)


def test_a_group_over_a_sofa_is_put_at_a_height_above_it() -> None:
    sofa = Obstacle(
        key="o400", kind="sofa", left=1000.0, bottom=0.0, width=Length.of_mm(2000), height=Length.of_mm(850)
    )
    start = project(4, (sofa,))
    task = task_of(start, "w200")
    hung = adopt(start, "w200", task, arrange(task, "row")).run(start)
    after = shift_group("w200", above_mm=230).run(hung)
    assert min(box.bottom for box in boxes(after).values()) == pytest.approx(1080)
    with pytest.raises(EditRefused):
        shift_group("w200", above_mm=20).run(hung)  # a sofa keeps 150 mm free


def test_the_gap_of_a_wall_laid_out_by_hand_changes_too() -> None:
    start = project(3)
    at, spots = 1000.0, {}
    for piece in start.pieces:
        spots[piece.key] = Spot("w200", at, 1300.0)
        at += piece.size_mm()[0] + 50
    hung = put(start, spots).run(start)
    after = boxes(keeping(set_gap(Length.of_mm(60))).run(hung))
    assert after["p2"].left - after["p1"].right == pytest.approx(60)
    assert after["p3"].left - after["p2"].right == pytest.approx(60)
    assert {box.bottom for box in after.values()} == {1300.0}
    # Its middle stays: two gaps of 10 mm more, 10 to each side.
    assert after["p1"].left == pytest.approx(990)


def test_a_chair_in_the_corner_draws_no_group_over_it() -> None:
    chair = Obstacle(key="o400", kind="seat", left=100.0, bottom=0.0, width=Length.of_mm(500), height=Length.of_mm(900))
    assert task_of(project(4, (chair,)), "w200").focus == (2100, 1450)
