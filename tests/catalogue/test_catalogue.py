"""The catalogue: every figure has a source, every record a name, and the project's own figures win."""

import typing
from typing import Any

import pytest

from composer.catalogue import catalogue, names, shipped
from composer.catalogue.records import Material
from composer.model import CatalogueChange, CatalogueEntry, CatalogueNotes, ObstacleKind, Surface

RECORDS: list[catalogue.Record] = [
    *shipped.strips().classes,
    *shipped.fixings().fixings,
    *shipped.wires().wires,
    *shipped.obstacles().kinds,
    *shipped.materials().mouldings,
    *shipped.materials().glazing,
    *shipped.materials().backings,
    *shipped.materials().boards,
    *shipped.materials().papers,
    *shipped.materials().hardware,
]


@pytest.mark.parametrize("record", RECORDS, ids=lambda record: record.entry)
def test_every_record_has_a_source_and_a_name_in_words(record: catalogue.Record) -> None:
    assert len(record.source) > 10
    assert names.name_of(record) != record.entry
    assert names.status_words(record.status)


def test_no_two_records_share_an_entry_name() -> None:
    entries = [record.entry for record in RECORDS]
    assert len(set(entries)) == len(entries)


def test_every_kind_of_obstacle_has_a_margin() -> None:
    assert set(catalogue.usual().obstacles) == set(typing.get_args(ObstacleKind))


def test_walls_of_fixings_are_kinds_of_walls() -> None:
    known = set(typing.get_args(Surface))
    for fixing in shipped.fixings().fixings:
        assert set(fixing.walls) <= known, fixing.id


def test_density_of_wood_by_its_specific_gravity() -> None:
    # USDA Wood Handbook FPL-GTR-190, chapter 4: G 0.40 at 12 % is 448 kg/m³ = 27.968 lb/ft³
    # (the published example); a pound is 0.45359237 kg and a foot 0.3048 m exactly.
    pine = catalogue.usual().mouldings["pine"].kg_per_m3()
    assert pine == pytest.approx(448, rel=1e-4)
    assert pine is not None
    assert pine / 0.45359237 * 0.3048**3 == pytest.approx(27.968, rel=1e-4)


@pytest.mark.parametrize(
    ("glazing", "thickness_mm", "kg_per_m2"),
    [
        ("glass", 1, 2.5),  # EN 572-1: 2.5 kg per m² and mm
        ("acrylic", 3, 3.57),  # ISO 1183 value of data sheets, 1 190 kg/m³
    ],
)
def test_weight_of_glazing(glazing: str, thickness_mm: float, kg_per_m2: float) -> None:
    density = catalogue.usual().glazing[glazing].kg_per_m3()
    assert density is not None
    assert density * thickness_mm / 1000 == pytest.approx(kg_per_m2, abs=1e-12)


def test_hooks_are_held_at_half_of_what_is_printed_and_never_above_the_board() -> None:
    # Printed classes 30, 50, 100 lb (common practice); one fixing in 12.5 mm board: 20 kg at most.
    pound = 0.45359237
    for fixing, printed in (("hook-one-nail", 30), ("hook-two-nails", 50), ("hook-three-nails", 100)):
        load = catalogue.usual().fixings[fixing].load_kg
        assert load is not None
        assert load <= min(printed * pound / 2, 20) < load + 0.1


def test_the_packet_wins_over_the_pinned_figure_and_that_over_what_ships() -> None:
    pinned = CatalogueEntry(
        id="strips-medium", kind="strips", name="strips of last year", fields=(("rating_kg", 1.0), ("width_mm", 17.0))
    )
    typed = CatalogueChange(entry="strips-medium", field="rating_kg", value=1.3)
    medium = catalogue.of(CatalogueNotes(pinned=(pinned,), changed=(typed,))).strip_classes["medium"]
    assert (medium.rating_kg, medium.width_mm, medium.length_mm) == (1.3, 17, 70)
    assert (medium.name, medium.status) == ("strips of last year", "packet")


def test_own_entries_join_the_list() -> None:
    bamboo = CatalogueEntry(
        id="bamboo", kind="moulding", name="bamboo", fields=(("density_kg_m3", 700.0),), source="weighed a stick"
    )
    wedge = CatalogueEntry(id="wedge", kind="fixing", name="wedge", fields=(("offset_mm", 4.0), ("load_kg", 3.0)))
    mine = catalogue.of(CatalogueNotes(own=(bamboo, wedge)))
    assert mine.mouldings["bamboo"].kg_per_m3() == 700
    assert names.name_of(mine.mouldings["bamboo"]) == "bamboo"
    assert mine.hook_offset_mm("wedge") == 4.0
    assert mine.unread == ()


def test_entries_nobody_can_read_are_named_and_left_alone() -> None:
    notes = CatalogueNotes(
        own=(CatalogueEntry(id="fog", kind="moulding", name="fog"),),
        changed=(
            CatalogueChange(entry="strips-medium", field="rating_kg", value="much"),
            CatalogueChange(entry="strips-medium", field="colour", value="red"),
            CatalogueChange(entry="strips-of-old", field="rating_kg", value=1.0),
        ),
    )
    odd = catalogue.of(notes)
    assert "fog" not in odd.mouldings
    assert odd.strip_classes["medium"].rating_kg == 0.9
    assert sorted(odd.unread) == ["moulding:fog", "strips-medium", "strips-of-old"]


def test_the_same_notes_give_the_same_catalogue() -> None:
    assert catalogue.of(CatalogueNotes()) is catalogue.usual()


@pytest.mark.parametrize("weights", [{}, {"density_kg_m3": 1.0, "grammage_g_m2": 2.0}])
def test_a_material_has_exactly_one_weight(weights: dict[str, Any]) -> None:
    with pytest.raises(ValueError, match="has one of"):
        Material(id="x", status="own", source="", **weights)


@pytest.mark.parametrize("weight", [0.0, -1.0, 1e308, float("inf"), float("nan")])
def test_a_material_weighs_something_sensible(weight: float) -> None:
    with pytest.raises(ValueError, match="density_kg_m3 cannot be"):
        Material(id="x", status="own", source="", density_kg_m3=weight)


def test_every_size_of_strips_stays_whatever_a_project_holds() -> None:
    notes = CatalogueNotes(changed=(CatalogueChange(entry="strips-large", field="size", value="medium"),))
    assert catalogue.of(notes).strip_classes == catalogue.usual().strip_classes


@pytest.mark.parametrize("rating", [0.0, -1.0, 1e308])
def test_a_figure_that_cannot_be_is_not_used(rating: float) -> None:
    """A project may hold anything; the shipped figure stands, and it is told which one could not be read."""
    notes = CatalogueNotes(changed=(CatalogueChange(entry="strips-medium", field="rating_kg", value=rating),))
    odd = catalogue.of(notes)
    assert odd.strip_classes["medium"] == catalogue.usual().strip_classes["medium"]
    assert "strips-medium" in odd.unread
