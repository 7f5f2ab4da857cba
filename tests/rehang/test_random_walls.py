"""Random walls with every kind of hanger: what must hold whatever hangs where."""

import math
import random
from decimal import Decimal

import msgspec
import pytest

from composer.costing.costs import costs_of, rows_of
from composer.editing.rehang_edits import carry_out, record_down, record_up, take_places
from composer.model import Hanger, HardwareChoice, Obstacle, Piece, Placement, Project
from composer.rehang.plan import offer_shift, plan_rehang
from composer.rehang.reuse import TOLERANCE_MM
from tests.costing.projects import price
from tests.rehang.walls import NOW, THEN, mm, nail, wall_of

KINDS = ("wire", "sawtooth", "d-rings", "keyholes", "strips", "cleat", "ledge", None)


def random_piece(luck: random.Random, number: int) -> Piece:
    kind = luck.choice(KINDS)
    made = nail(number, luck.randint(120, 600), luck.randint(120, 600), 20)
    measures = {}
    if kind in ("wire", "d-rings", "keyholes", "cleat"):
        measures["spacing"] = mm(made.frame.width.mm / 2)
    if kind not in ("strips", "ledge", None) and luck.random() < 0.85:
        measures["drop"] = mm(luck.randint(5, 90))
    count = 2 if kind in ("d-rings", "keyholes") else 1
    fixing = luck.choice(["hook-slim", "plug-board", "no such thing"])
    hardware = HardwareChoice(fixing=fixing, count=count, hook_offset=mm(luck.choice([0, 15, -2])))
    return msgspec.structs.replace(
        made,
        frame=msgspec.structs.replace(made.frame, face=mm(luck.choice([20, 32]))),
        hanger=Hanger(kind=kind, **measures),  # type: ignore[arg-type]
        hardware=None if kind in ("strips", "ledge", None) else hardware,
        owned=luck.random() < 0.5,
        price=Decimal(luck.randint(1, 999)) / 100,
    )


def random_wall(seed: int) -> Project:
    luck = random.Random(seed)
    pieces = [random_piece(luck, number) for number in range(1, luck.randint(2, 12))]
    project = wall_of(pieces, {}, {})

    def places() -> tuple[Placement, ...]:
        return tuple(
            Placement(
                piece=piece.key,
                wall="w901",
                left=float(luck.randint(0, 3300)),
                bottom=float(luck.randint(300, 1900)),
                turned=luck.random() < 0.1,
            )
            for piece in pieces
            if luck.random() < 0.8
        )

    january = msgspec.structs.replace(project.arrangements[0], placements=places())
    near = tuple(
        msgspec.structs.replace(
            place, left=place.left + luck.choice([0, 0, 1.5, 7]), bottom=place.bottom + luck.choice([0, 1])
        )
        for place in january.placements
        if luck.random() < 0.8
    )
    later = msgspec.structs.replace(project.arrangements[1], placements=near if luck.random() < 0.6 else places())
    sofa = Obstacle(key="o910", kind="sofa", left=500.0, bottom=0.0, width=mm(2000), height=mm(800))
    wall = msgspec.structs.replace(project.walls[0], obstacles=(sofa,))
    project = msgspec.structs.replace(
        project, walls=(wall,), arrangements=(january, later), current_arrangement=january.key
    )
    project = record_up(project, [one.piece for one in january.placements if luck.random() < 0.9], THEN).run(project)
    project = record_down(project, [one.piece for one in january.placements if luck.random() < 0.2], NOW).run(project)
    prices = tuple(
        price(item, f"{luck.randint(1, 900) / 100:.2f}", luck.randint(1, 12))
        for item in ("strips-small", "strips-medium", "strips-large", "hook-slim", "hook-slim", "plug-board", "bumper")
    )
    money = msgspec.structs.replace(project.money, prices=prices)
    return msgspec.structs.replace(project, money=money, current_arrangement=later.key)


@pytest.mark.parametrize("seed", range(60))
def test_a_plan_that_is_done_leaves_nothing_to_do(seed: int) -> None:
    project = random_wall(seed)
    wall = project.walls[0]
    plan = plan_rehang(project, wall, project.arrangement)
    used = [hole.old.index for change in plan.changes for hole in change.holes if hole.old is not None]
    assert len(set(used)) == len(used) == plan.used_again
    assert not set(used) & {one.hole.index for one in plan.fill}
    for change in plan.changes:
        if change.action != "stay":
            assert math.hypot(*change.off) <= TOLERANCE_MM + 1e-6
    assert sorted(work.piece for work in plan.work if work.act != "aside") == sorted(
        change.piece.key for change in plan.changes if change.action != "stay"
    )
    offer = offer_shift(project, wall, project.arrangement)
    if offer is not None:
        assert offer.plan.used_again == plan.used_again + offer.saves
        assert math.hypot(*offer.shift) <= 10 + 1e-6
    taken = take_places(project, project.current_arrangement, plan).run(project)
    done = carry_out(plan_rehang(taken, wall, taken.arrangement), NOW).run(taken)
    assert plan_rehang(done, wall, done.arrangement).nothing_to_do


@pytest.mark.parametrize("seed", range(60))
def test_costs_hold_together(seed: int) -> None:
    costs = costs_of(random_wall(seed))
    assert Decimal(0) <= costs.used <= costs.total
    assert costs.total == sum((row.cost for row in rows_of(costs)), Decimal(0))
    for line in costs.lines:
        bought = sum(one.things for one in line.purchase.bought)
        assert line.purchase.from_drawer + bought - line.purchase.left_over == line.need.count
    for row in rows_of(costs):
        assert row.cost == row.packs * row.each
        assert row.left_over >= 0
