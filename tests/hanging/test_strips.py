"""Strips: class, pairs and places.

Ratings and largest frames are common practice as printed on packets (no public standard exists);
what is worked out here by hand is counting and placing.
"""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from composer.catalogue import catalogue
from composer.hanging.points import hang
from composer.hanging.records import PieceHanging
from composer.model import CatalogueChange, CatalogueNotes, Frame, Hanger, Piece
from composer.units import Length, Mass


def mm(value: float) -> Length:
    return Length.of_mm(value)


def stuck(
    width: float = 300,
    height: float = 400,
    kg: str | None = "0.5 kg",
    face: float | None = 32,
    lip: float = 6,
    **more: Any,
) -> Piece:
    hanger = {name: more.pop(name) for name in ("strip_size", "strip_pairs", "strip_half") if name in more}
    lengths: dict[str, Any] = {
        name: mm(value) if isinstance(value, int | float) else value for name, value in more.items()
    }
    return Piece(
        key="p1",
        number=1,
        name="lighthouse",
        frame=Frame(
            width=mm(width), height=mm(height), face=None if face is None else mm(face), lip=mm(lip), **lengths
        ),
        hanger=Hanger(kind="strips", **hanger),
        weight=None if kg is None else Mass.from_text(kg),
    )


def boxes(hanging: PieceHanging) -> list[tuple[float, ...]]:
    assert hanging.strips is not None
    return [tuple(round(side, 6) for side in place) for place in hanging.strips.places]


def refusal(hanging: PieceHanging) -> str:
    assert hanging.strips is None
    assert (hanging.points, hanging.holes) == ((), ())
    (problem,) = hanging.problems
    return problem.code


def test_two_pairs_sit_5_mm_from_the_upper_corners() -> None:
    # 178 × 229, flat 32 − 6 = 26 = 16 + 2·5: left strip 5…21, right 157…173, both 154…224 up.
    hanging = hang(stuck(178, 229, "0.48 kg"))
    assert boxes(hanging) == [(5, 154, 21, 224), (157, 154, 173, 224)]
    assert [(x, y, what) for x, y, what in hanging.points] == [(13.0, 189.0, "strip"), (165.0, 189.0, "strip")]
    assert hanging.holes == ()
    plan = hanging.strips
    assert plan is not None
    assert (plan.size, plan.pairs, plan.half) == ("medium", 2, False)
    assert plan.capacity_kg == pytest.approx(1.8)  # two pairs of 0.9 kg


def test_four_pairs_put_two_more_two_thirds_down() -> None:
    # 400 high, 4 because 1.5·1.5/0.9 = 2.5 → 4. Lower middles at 400/3 = 133.33: 98.33…168.33.
    hanging = hang(stuck(300, 400, "1.5 kg"))
    assert boxes(hanging) == [
        (5, 325, 21, 395),
        (5, 98.333333, 21, 168.333333),
        (279, 325, 295, 395),
        (279, 98.333333, 295, 168.333333),
    ]


def test_four_pairs_on_a_low_frame_move_together_but_never_overlap() -> None:
    # 160 high: upper 85…155. Two thirds down would be 18.3…88.3, so it moves to 85 − 2 − 70 = 13.
    hanging = hang(stuck(300, 160, "1.5 kg"))
    assert [box[1] for box in boxes(hanging)] == [85, 13, 85, 13]


@pytest.mark.parametrize(
    ("flat", "left"),
    # Strip 16 wide: 5 mm in where 26 is there; between 22 and 26 in the flat's middle; at least 3.
    [(40, 5), (26, 5), (24, 4), (22, 3), (20, 3), (19, 3)],
)
def test_how_far_strips_are_set_in(flat: float, left: float) -> None:
    hanging = hang(stuck(face=flat + 6))
    assert boxes(hanging)[0][0] == left


@pytest.mark.parametrize("flat", [18.9, 10, 0])
def test_a_moulding_too_narrow_takes_no_strips(flat: float) -> None:
    # The narrowest class is 16 wide and stays 3 mm inside the edge: 19.
    hanging = hang(stuck(face=flat + 6))
    assert refusal(hanging) == "strip-width"
    (problem,) = hanging.problems
    assert (problem.level, problem.value("needed_mm")) == ("warn", 19)


def test_strips_cut_lengthwise_fit_a_narrow_moulding_and_carry_half() -> None:
    # Half of 16 is 8: needs 11. Two half pairs of medium carry 2 · 0.45 = 0.9 kg ≥ 1.5 · 0.5.
    hanging = hang(stuck(face=17, strip_half=True))
    plan = hanging.strips
    assert plan is not None
    assert (plan.width_mm, plan.half) == (8.0, True)
    assert plan.capacity_kg == pytest.approx(0.9)
    assert boxes(hanging)[0] == (3, 325, 11, 395)


@pytest.mark.parametrize(
    ("piece", "size", "pairs"),
    [
        # 1.5 · 0.685 / 0.9 = 1.14 → 2 medium.
        (stuck(300, 400, "0.685 kg", glazing="acrylic"), "medium", 2),
        # 500 × 700 is beyond medium; glass 2 · 3.27 / 1.8 = 3.63 → 4 large.
        (stuck(500, 700, "3.27 kg", glazing="glass"), "large", 4),
        # 1.5 · 1.2 / 0.9 = 2 exactly → 2; a gram more → 4.
        (stuck(300, 400, "1.2 kg"), "medium", 2),
        (stuck(300, 400, "1.201 kg"), "medium", 4),
        # A side beyond 450 mm, or deeper than 25 mm: four.
        (stuck(300, 451, "0.5 kg"), "medium", 4),
        (stuck(300, 450, "0.5 kg"), "medium", 2),
        (stuck(300, 400, "0.5 kg", depth=26), "medium", 4),
        # Glass: four when the piece weighs more than half of what two pairs carry (0.9 kg).
        (stuck(300, 400, "0.9 kg", glazing="glass"), "medium", 2),
        (stuck(300, 400, "0.901 kg", glazing="glass"), "medium", 4),
        # Too heavy for four medium (1.5 · 2.5 / 0.9 = 4.17): large, 1.5 · 2.5 / 1.8 = 2.08 → 4.
        (stuck(300, 400, "2.5 kg"), "large", 4),
        # Nobody weighed it: medium, two.
        (stuck(300, 400, None), "medium", 2),
        # What the person decided stays.
        (stuck(300, 400, "0.5 kg", strip_size="large"), "large", 2),
        (stuck(300, 400, "0.5 kg", strip_pairs=4), "medium", 4),
    ],
)
def test_class_and_pairs(piece: Piece, size: str, pairs: int) -> None:
    plan = hang(piece).strips
    assert plan is not None
    assert (plan.size, plan.pairs) == (size, pairs)


@pytest.mark.parametrize(
    ("piece", "code"),
    [
        # 1.5 · 6.35 / 1.8 = 5.3 pairs: too heavy for four.
        (stuck(500, 700, "6.35 kg"), "overload"),
        # 700 × 1000 is beyond the largest class whatever it weighs.
        (stuck(700, 1000, "4.12 kg"), "strip-size"),
        (stuck(300, 400, "0.5 kg", strip_size="small"), "strip-size"),
        (stuck(300, 400, "1.3 kg", strip_pairs=2, strip_size="medium"), "overload"),
        # The shortest class is 46 long and needs 3 above and below: 52.
        (stuck(200, 51, "0.1 kg", face=25), "strip-length"),
    ],
)
def test_refusals(piece: Piece, code: str) -> None:
    assert refusal(hang(piece)) == code


def test_a_piece_nobody_weighed_is_placed_but_said_to_be_unweighed() -> None:
    hanging = hang(stuck(kg=None))
    assert [(problem.code, problem.value("missing")) for problem in hanging.problems] == [("not-measured", "weight")]


def test_the_flat_follows_from_glass_measured_at_the_back() -> None:
    # Opening = glass 246 + 3 = 249, so (300 − 249)/2 = 25.5 beside it; upright (400 − 349)/2 = 25.5 above.
    piece = stuck(face=None, glass_width=246, glass_height=346, allowance=3)
    plan = hang(piece).strips
    assert plan is not None
    assert plan.flat_mm == 25.5


def test_the_flat_follows_from_the_sight_size_less_the_lip() -> None:
    # Visible 240 of 300: (300 − 240)/2 − 6 = 24 beside it; 336 of 400: 32 − 6 = 26 above; the narrower counts.
    plan = hang(stuck(face=None, sight_width=240, sight_height=336)).strips
    assert plan is not None
    assert plan.flat_mm == 24.0


def test_the_packet_wins() -> None:
    notes = CatalogueNotes(
        changed=(
            CatalogueChange(entry="strips-medium", field="rating_kg", value=1.3),
            CatalogueChange(entry="strips-medium", field="width_mm", value=20.0),
        )
    )
    plan = hang(stuck(), catalogue=catalogue.of(notes)).strips
    assert plan is not None
    assert plan.width_mm == 20.0
    assert plan.capacity_kg == pytest.approx(2.6)


@given(
    width=st.integers(60, 900),
    height=st.integers(60, 900),
    face=st.integers(8, 29),
    lip=st.integers(0, 8),
    grams=st.integers(50, 5000),
    glazing=st.sampled_from(["glass", "acrylic", "none", "unknown"]),
    half=st.booleans(),
    pairs=st.sampled_from([None, 2, 4]),
)
def test_strips_always_lie_on_the_flat_and_carry_the_piece(
    width: int, height: int, face: int, lip: int, grams: int, glazing: str, half: bool, pairs: int | None
) -> None:
    """The rules a checker with a ruler would apply, without the program's own placing."""
    piece = stuck(width, height, f"{grams} g", face, lip, glazing=glazing, strip_half=half, strip_pairs=pairs)
    hanging = hang(piece)
    plan = hanging.strips
    if plan is None:
        assert hanging.problems[0].code in {"overload", "strip-size", "strip-length", "strip-width"}
        return
    assert plan.pairs in (2, 4)
    assert len(plan.places) == len(hanging.points) == plan.pairs
    assert plan.capacity_kg >= 1.5 * grams / 1000 - 1e-9
    flat = face - lip
    for left, bottom, right, top in plan.places:
        assert min(left, bottom, width - right, height - top) >= 3 - 1e-9
        assert right <= flat + 1e-9 or left >= width - flat - 1e-9
        assert top - bottom > right - left  # upright
    for index, one in enumerate(plan.places):
        assert not any(one.meets(other) for other in plan.places[index + 1 :])


def test_a_deep_frame_pulls_its_upper_strips_off_the_wall() -> None:
    # 0.48 kg, 20 deep: upper strips' middles at 189: 0.48 · 10 / 189 kg.
    hanging = hang(stuck(178, 229, "0.48 kg", depth=20))
    pull = hanging.working[-1].result
    assert pull.unit == "kg"
    assert pull.value == pytest.approx(0.48 * 10 / 189)


@pytest.mark.parametrize(
    ("height", "more", "pairs", "bottoms"),
    [
        # Medium strips are 70 long and stay 3 inside: 76 is the least, then as far in as both ends allow, 5 at most.
        (76, {}, 2, [3]),
        (78, {}, 2, [4]),
        (80, {}, 2, [5]),
        # Two on a side, 2 apart: 3 + 70 + 2 + 70 + 3 = 148.
        (148, {"strip_pairs": 4}, 4, [75, 3]),
        (150, {"strip_pairs": 4}, 4, [76, 4]),
        (152, {"strip_pairs": 4}, 4, [77, 5]),
    ],
)
def test_strips_on_a_low_frame(height: float, more: dict[str, Any], pairs: int, bottoms: list[float]) -> None:
    hanging = hang(stuck(300, height, "0.3 kg", strip_size="medium", **more))
    assert hanging.strips is not None
    assert hanging.strips.pairs == pairs
    assert [box[1] for box in boxes(hanging)] == [*bottoms, *bottoms]


@pytest.mark.parametrize(
    ("piece", "needed"),
    [
        (stuck(300, 75.9, "0.3 kg", strip_size="medium"), 76),
        (stuck(300, 147.9, "0.3 kg", strip_size="medium", strip_pairs=4), 148),
        # 1.5 · 1.3 / 0.9 = 2.17 pairs: four are needed, and there is no room for them.
        (stuck(300, 147.9, "1.3 kg", strip_size="medium"), 148),
    ],
)
def test_a_frame_too_low_says_what_it_needs(piece: Piece, needed: float) -> None:
    assert refusal(hang(piece)) == "strip-length"
    (problem,) = hang(piece).problems
    assert problem.value("needed_mm") == needed
    assert problem.value("height_mm") == piece.frame.height.mm


@pytest.mark.parametrize(("kg", "glazing"), [("0.3 kg", "acrylic"), ("1.2 kg", "acrylic"), ("0.9 kg", "glass")])
def test_four_wished_for_are_two_where_two_carry_it_and_four_have_no_room(kg: str, glazing: str) -> None:
    # 451 wide asks for four; 147 high has room for two, which carry 1.5 · 1.2 / 0.9 = 2 at the most, glass 2 · 0.9 / 0.9.
    plan = hang(stuck(451, 147, kg, strip_size="medium", glazing=glazing)).strips
    assert plan is not None
    assert plan.pairs == 2


def test_glass_nobody_weighed_takes_two() -> None:
    plan = hang(stuck(300, 400, None, glazing="glass")).strips
    assert plan is not None
    assert (plan.pairs, plan.weight_kg) == (2, None)


def test_exactly_25_mm_deep_is_not_deep() -> None:
    plan = hang(stuck(300, 400, "0.5 kg", depth=25)).strips
    assert plan is not None
    assert plan.pairs == 2


def test_half_a_thousandth_too_narrow_is_too_narrow() -> None:
    assert refusal(hang(stuck(face=24.9995))) == "strip-width"  # flat 18.9995 of 19


def test_glass_without_an_allowance_is_as_large_as_its_opening() -> None:
    plan = hang(stuck(face=None, glass_width=250, glass_height=350)).strips
    assert plan is not None
    assert plan.flat_mm == 25.0  # (300 − 250) / 2


@pytest.mark.parametrize(("half", "said", "needed"), [(False, "no", 19), (True, "yes", 11)])
def test_a_refusal_says_whether_halves_were_meant(half: bool, said: str, needed: float) -> None:
    (problem,) = hang(stuck(face=16, strip_half=half)).problems  # flat 10; 16 + 3, and 8 + 3
    assert (problem.code, problem.value("half"), problem.value("needed_mm")) == ("strip-width", said, needed)


def test_of_several_refusals_the_one_that_comes_nearest_is_told() -> None:
    """The strongest class for a weight, the largest for a size, the shortest for a low frame."""
    (heavy,) = hang(stuck(300, 400, "6.35 kg")).problems
    assert (heavy.value("size"), heavy.value("capacity_kg"), heavy.value("pairs")) == ("large", 7.2, 4)  # 4 · 1.8
    (large,) = hang(stuck(700, 1000, "4.12 kg")).problems
    assert (large.value("size"), large.value("largest_long_mm")) == ("large", 900)
    (low,) = hang(stuck(200, 51, "0.1 kg", face=25)).problems
    assert (low.value("size"), low.value("needed_mm")) == ("small", 52)
    (two,) = hang(stuck(300, 400, "1.3 kg", strip_pairs=2, strip_size="medium")).problems
    assert (two.value("capacity_kg"), two.value("weight_kg"), two.value("margin")) == (1.8, 1.3, 1.5)
