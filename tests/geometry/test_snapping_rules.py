"""Snapping against the same rules written a second time without any index (``snapping_referee``)."""

from hypothesis import example, given, settings
from hypothesis import strategies as st

from composer.geometry.rectangle import Rectangle
from composer.geometry.snapping import Guide, KeepOut, Neighbour, SnapSession, step
from tests.geometry.snapping_referee import COSTS_PX, Scene, put

# Whole millimetres at one pixel each, crowded into a corner: edges meet, and the bounds of 8 and 12 px are hit.
near = st.integers(0, 130).map(lambda tens: tens * 5.0) | st.integers(0, 640).map(float)
sides = st.sampled_from([40.0, 60.0, 100.0, 101.0, 200.0])
boxes = st.builds(Rectangle.at, near, near, sides, sides)
far = st.builds(Rectangle.at, st.sampled_from([0.0, 700.0, 760.0, 1000.0]), near, sides, sides)
lines = st.sampled_from(
    [
        ("x", "centre", 300.0, "wall-middle", "middle"),
        ("x", "low", 100.0, "wall-margin", "margin"),
        ("x", "high", 560.0, "wall-margin", "other margin"),
        ("y", "centre", 250.0, "eye-line", "eye line"),
    ]
)


@st.composite
def scenes(draw: st.DrawFn) -> Scene:
    still = draw(st.lists(boxes | far, max_size=7))
    things = draw(st.lists(st.tuples(boxes, st.sampled_from([0.0, 25.0, 150.0])), max_size=2))
    return Scene(
        [(f"{number}", box) for number, box in enumerate(still)],
        [(f"thing {number}", box, margin) for number, (box, margin) in enumerate(things)],
        draw(st.lists(lines, max_size=3, unique=True)),
        draw(st.sampled_from([50.0, 20.0])),
    )


hands = st.tuples(boxes, st.lists(st.tuples(st.integers(-12, 12), st.integers(-12, 12)), max_size=3))


@given(scenes(), hands, st.sampled_from([1.0, 0.5, 0.24]))
@example(  # 600 away across catches, 601 does not
    Scene([("0", Rectangle.at(100, 0, 60, 60)), ("1", Rectangle.at(204, 1, 60, 60))], [], [], 50),
    (Rectangle.at(105, 660, 60, 60), [(98, 1)]),
    1.0,
)
@example(  # what moved it up holds no more once it is across, what moved it across still does
    Scene(
        [
            ("0", Rectangle.at(500, 110, 40, 40)),
            ("1", Rectangle.at(400, 390, 200, 60)),
            ("2", Rectangle.at(190, 465, 100, 100)),
        ],
        [],
        [("x", "low", 436.0, "wall-margin", "margin")],
        50,
    ),
    (Rectangle.at(533, 7, 60, 60), []),
    1.0,
)
@settings(max_examples=400)
def test_every_move_of_a_drag_follows_the_rules(
    scene: Scene, hand: tuple[Rectangle, list[tuple[int, int]]], px_per_mm: float
) -> None:
    session = SnapSession.begin(
        [Neighbour(*one) for one in scene.still],
        gap=scene.gap,
        keep_outs=[KeepOut(*one) for one in scene.things],
        guides=[Guide(*one) for one in scene.lines],  # type: ignore[arg-type]
    )
    box, moves = hand
    for across, up in [(0, 0), *moves]:
        box = box.moved(across, up)
        expected, rules, (chosen_across, chosen_up) = put(scene, box, px_per_mm, session.held)
        snap, session = step(session, box, px_per_mm)
        assert snap.box == expected
        assert {tuple(catch) for catch in snap.catches} == {rule[:6] for rule in rules}
        for axis, chosen in (("x", chosen_across), ("y", chosen_up)):
            # What moved it is told first, then the rules by how much they count.
            told = [catch for catch in snap.catches if catch.axis == axis]
            costs = [(tuple(catch[:5]) != (chosen and chosen[:5]), COSTS_PX[catch.rule], catch.names) for catch in told]
            assert costs == sorted(costs)
