"""What obstacles do to a piece: each counts by itself, wherever the others stand."""

import random

import pytest

from composer.catalogue import catalogue
from composer.findings.of_hazards import check_hazards
from composer.findings.of_place import check_place
from composer.model import Finding, Frame, Hanger, Obstacle, Piece, Placement, Wall
from composer.units import Length

KINDS = ("sofa", "bed", "cot", "seat", "table", "door", "window", "switch", "socket", "radiator", "tap", "shelf")


def mm(value: float) -> Length:
    return Length.of_mm(value)


def obstacle(number: int, dice: random.Random) -> Obstacle:
    return Obstacle(
        key=f"o{number}",
        kind=dice.choice(KINDS),  # type: ignore[arg-type]
        left=float(dice.randrange(0, 20_000)),
        bottom=float(dice.choice([0, 0, 300, 900])),
        width=mm(dice.choice([80, 500, 900, 2600])),
        height=mm(dice.choice([80, 700, 1200, 2000])),
        margin=None if dice.random() < 0.6 else mm(dice.choice([1, 50, 900])),
    )


@pytest.mark.parametrize("seed", range(15))
def test_a_wall_full_of_things_warns_as_each_of_them_alone_would(seed: int) -> None:
    """Superposition: what one obstacle is found to do does not depend on the others."""
    dice = random.Random(seed)
    things = tuple(obstacle(number, dice) for number in range(1, 60))
    known = catalogue.usual()

    def wall(obstacles: tuple[Obstacle, ...]) -> Wall:
        return Wall(key="w1", name="long", width=mm(20_000), height=mm(2600), obstacles=obstacles)

    frame = Frame(width=mm(400), height=mm(500), glazing="glass")
    piece = Piece(key="p1", number=1, name="mill", frame=frame, hanger=Hanger(kind="sawtooth", drop=mm(12)))
    for _ in range(20):
        place = Placement(
            piece="p1", wall="w1", left=float(dice.randrange(0, 19_600)), bottom=float(dice.randrange(0, 2100))
        )
        alone = [one for thing in things for one in check_place(piece, place, wall((thing,)), known)]
        assert list(check_place(piece, place, wall(things), known)) == alone
        hazards: dict[str, Finding] = {}
        for thing in things:
            for one in check_hazards(piece, place, wall((thing,)), known):
                kept = hazards.get(one.code)
                if kept is None or one.order < kept.order:
                    hazards[one.code] = one
        assert {one.code: one for one in check_hazards(piece, place, wall(things), known)} == hazards
