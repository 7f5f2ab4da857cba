"""The kept answers: always equal to a fresh run, and cheap after a small edit."""

import random
from typing import Any

import pytest

from composer.findings import FindingsCache, check
from composer.findings.of_pairs import overlapping
from composer.geometry.rectangle import Rectangle
from composer.model import Arrangement, Frame, Hanger, Obstacle, Override, Piece, Placement, Project, Wall
from composer.units import Length


def mm(value: float) -> Length:
    return Length.of_mm(value)


def wall(key: str, *obstacles: Obstacle) -> Wall:
    return Wall(key=key, name=f"wall {key}", width=mm(3600), height=mm(2500), obstacles=obstacles)


def many(count: int) -> Project:
    """Pieces side by side in rows of a long wall, none overlapping."""
    per_row = max(1, count // 4)
    pieces = tuple(
        Piece(
            key=f"p{n}", number=n, name=f"piece {n}", frame=Frame(width=mm(100), height=mm(120)),
            hanger=Hanger(kind="sawtooth", drop=mm(20)),
        )
        for n in range(1, count + 1)
    )  # fmt: skip
    places = tuple(
        Placement(piece=p.key, wall="w5000", left=float(150 * (n % per_row)), bottom=float(200 + 150 * (n // per_row)))
        for n, p in enumerate(pieces)
    )
    return Project(
        title="many",
        next_key=9000,
        next_number=count + 1,
        walls=(Wall(key="w5000", name="long", width=mm(90_000), height=mm(2500)),),
        pieces=pieces,
        arrangements=(Arrangement(key="h6000", name="first", gap=mm(50), placements=places),),
        current_arrangement="h6000",
    )


def with_changes(project: Project, **changes: Any) -> Project:
    fields = {name: getattr(project, name) for name in project.__struct_fields__}
    return Project(**{**fields, **changes})


def moved(project: Project, index: int, left: float, bottom: float) -> Project:
    arrangement = project.arrangement
    old = arrangement.placements[index]
    new = Placement(piece=old.piece, wall=old.wall, left=left, bottom=bottom, turned=old.turned)
    placements = (*arrangement.placements[:index], new, *arrangement.placements[index + 1 :])
    return with_changes(
        project,
        arrangements=(
            Arrangement(key=arrangement.key, name=arrangement.name, gap=arrangement.gap, placements=placements),
        ),
    )


def random_edit(project: Project, dice: random.Random) -> Project:
    arrangement = project.arrangement
    what = dice.choice(["move", "hang", "floor", "measure", "wall", "override", "delete"])
    if what == "move" and arrangement.placements:
        index = dice.randrange(len(arrangement.placements))
        return moved(project, index, float(dice.randrange(-200, 3600)), float(dice.randrange(-100, 2400)))
    if what == "hang":
        lying = project.on_floor()
        if lying:
            place = Placement(
                piece=dice.choice(lying).key, wall=dice.choice(project.walls).key, turned=dice.random() < 0.3,
                left=float(dice.randrange(0, 3400)), bottom=float(dice.randrange(0, 2200)),
            )  # fmt: skip
            changed = Arrangement(
                key=arrangement.key, name="a", gap=arrangement.gap, placements=(*arrangement.placements, place)
            )
            return with_changes(project, arrangements=(changed,))
    if what == "floor" and arrangement.placements:
        index = dice.randrange(len(arrangement.placements))
        placements = arrangement.placements[:index] + arrangement.placements[index + 1 :]
        changed = Arrangement(key=arrangement.key, name="a", gap=arrangement.gap, placements=placements)
        return with_changes(project, arrangements=(changed,))
    if what == "measure":
        index = dice.randrange(len(project.pieces))
        old = project.pieces[index]
        hanger = dice.choice([Hanger(), Hanger(kind="sawtooth", drop=mm(dice.randrange(0, 700))), Hanger(kind="ledge")])
        frame = Frame(width=mm(dice.randrange(10, 900)), height=mm(dice.randrange(10, 900)))
        new = Piece(key=old.key, number=old.number, name=old.name, frame=frame, hanger=hanger)
        return with_changes(project, pieces=(*project.pieces[:index], new, *project.pieces[index + 1 :]))
    if what == "wall":
        index = dice.randrange(len(project.walls))
        old_wall = project.walls[index]
        sofa = Obstacle(
            key=f"o{7000 + index}", kind=dice.choice(["sofa", "switch", "window"]), left=float(dice.randrange(0, 2000)),
            bottom=0.0, width=mm(1500), height=mm(dice.randrange(300, 1200)),
        )  # fmt: skip
        new_wall = wall(old_wall.key, *([sofa] if dice.random() < 0.7 else []))
        return with_changes(project, walls=(*project.walls[:index], new_wall, *project.walls[index + 1 :]))
    if what == "override":
        keys = (dice.choice(project.pieces).key,)
        override = Override(
            code=dice.choice(["overlap", "outside-wall"]), pieces=keys, reason="because", when="2026-04-18T14:05:00Z"
        )
        return with_changes(project, overrides=(override,))
    return project


@pytest.mark.parametrize("seed", range(12))
def test_after_any_edits_the_kept_answers_equal_a_fresh_run(seed: int) -> None:
    dice = random.Random(seed)
    project = with_changes(many(12), walls=(wall("w5000"), wall("w5001")))
    cache = FindingsCache()
    history = [project]
    for _ in range(60):
        # Undo brings back old objects, which must not bring back old answers to newer questions.
        project = dice.choice(history) if dice.random() < 0.15 else random_edit(project, dice)
        history.append(project)
        assert cache.check(project) == check(project)


def test_one_moved_piece_runs_its_own_checks_only() -> None:
    for count in (40, 400):
        project = many(count)
        cache = FindingsCache()
        cache.check(project)
        before = cache.runs
        cache.check(moved(project, 7, 5.0, 900.0))
        # Its place, what is below it, its holes, the pairs and the gaps of that wall; whatever the number of pieces.
        assert cache.runs - before == 5


def test_an_unchanged_project_runs_nothing() -> None:
    project = many(40)
    cache = FindingsCache()
    first = cache.check(project)
    before = cache.runs
    assert cache.check(project) == first
    assert cache.runs == before


class _Counted(Rectangle):
    """A rectangle that counts how often it is compared."""

    compared = 0

    def meets(self, other: Rectangle, *, least: float = 1e-6) -> bool:
        _Counted.compared += 1
        return super().meets(other, least=least)


def test_pairs_are_found_by_a_sweep_not_by_comparing_all() -> None:
    def comparisons(count: int) -> int:
        _Counted.compared = 0
        row = [(_Counted(150.0 * n, 1000.0, 150.0 * n + 100, 1120.0), n) for n in range(count)]
        assert list(overlapping(row)) == []
        return _Counted.compared

    # Side by side nothing is open when the next begins; all pairs would be 10 times 10 as many.
    assert comparisons(1000) <= 10 * max(1, comparisons(100))


def test_the_sweep_finds_what_comparing_all_finds() -> None:
    dice = random.Random(3)
    for _ in range(50):
        boxes = [
            (
                Rectangle.at(
                    dice.randrange(0, 900), dice.randrange(0, 900), dice.randrange(1, 300), dice.randrange(1, 300)
                ),
                n,
            )
            for n in range(30)
        ]
        expected = {
            (one, two)
            for (first, one) in boxes
            for (second, two) in boxes
            if one < two
            and first.left < second.right
            and second.left < first.right
            and first.bottom < second.top
            and second.bottom < first.top
        }
        assert {(min(one, two), max(one, two)) for one, two, _, _ in overlapping(boxes)} == expected
