"""Acrylic for glass, by the sums of a table of densities: glass 2 500 kg/m³ (EN 572-1), acrylic 1 190 (ISO 7823-1)."""

import msgspec
import pytest

from composer.editing.edits import EditRefused
from composer.editing.glazing_edits import change_glazing, reglazed
from composer.model import Arrangement, Frame, Hanger, Piece, Project, Wall
from composer.units import Length, Mass

length = Length.from_text


def project(**frame: object) -> Project:
    """One piece of 500 × 400, glass 460 × 360 × 2 mm: 0.828 kg of glass, 0.394 kg of acrylic."""
    fields: dict[str, object] = {
        "width": length("500 mm"),
        "height": length("400 mm"),
        "glass_width": length("460 mm"),
        "glass_height": length("360 mm"),
        "glazing": "glass",
        "glazing_thickness": length("2 mm"),
        **frame,
    }
    piece = Piece(
        key="p1",
        number=1,
        name="Boats",
        frame=Frame(**fields),  # type: ignore[arg-type]
        hanger=Hanger(kind="strips"),
        weight=Mass.from_text("2.1 kg"),
    )
    wall = Wall(key="w2", name="Wall", width=length("3 m"), height=length("2.5 m"))
    arrangement = Arrangement(key="h3", name="first", gap=length("50 mm"))
    return Project(
        title="Test flat",
        next_key=10,
        next_number=2,
        walls=(wall,),
        pieces=(piece,),
        arrangements=(arrangement,),
        current_arrangement="h3",
    )


LESS_KG = 0.46 * 0.36 * 0.002 * (2500 - 1190)
"""0.4338 kg: what acrylic of 2 mm takes off."""


def test_a_weighed_piece_gets_the_weight_that_follows() -> None:
    before = project()
    after = change_glazing(before, "p1", "acrylic").run(before)
    (piece,) = after.pieces
    assert piece.frame.glazing == "acrylic"
    assert piece.weight is not None
    # Never lighter than the sum; up to 10 g and the little the densities may be off above it.
    assert 2.1 - LESS_KG <= piece.weight.kg <= 2.1 - LESS_KG + 0.06
    assert piece.weight.text.endswith(" kg")
    assert round(piece.weight.kg * 100) == pytest.approx(piece.weight.kg * 100)


def test_pounds_stay_pounds() -> None:
    before = project()
    (piece,) = before.pieces
    heavy = msgspec.structs.replace(piece, weight=Mass.from_text("4 lb 10 oz"))
    made = reglazed(msgspec.structs.replace(before, pieces=(heavy,)), "p1", "acrylic")
    assert made.weight is not None
    assert made.weight.text.endswith(" lb")
    # 4 lb 10 oz are 2.0979 kg; a tenth of a pound is 45 g.
    assert 2.0979 - LESS_KG <= made.weight.kg <= 2.0979 - LESS_KG + 0.1


def test_a_piece_that_was_not_weighed_stays_so() -> None:
    before = project()
    (piece,) = before.pieces
    light = msgspec.structs.replace(piece, weight=None)
    made = reglazed(msgspec.structs.replace(before, pieces=(light,)), "p1", "acrylic")
    assert made.weight is None
    assert made.frame.glazing == "acrylic"


def test_where_the_glass_is_not_known_nothing_is_made_up() -> None:
    before = project(glazing="unknown")
    with pytest.raises(EditRefused, match="piece 1"):
        change_glazing(before, "p1", "acrylic").run(before)


def test_what_is_acrylic_already_stays_the_same_project() -> None:
    before = project(glazing="acrylic")
    assert reglazed(before, "p1", "acrylic").frame == before.pieces[0].frame
