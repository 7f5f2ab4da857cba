"""A plan keeps the figures it was made with, whatever a later catalogue says."""

from typing import Any

import msgspec
import pytest

from composer.catalogue import catalogue, shipped
from composer.catalogue.pinning import pinned_for
from composer.hanging.points import hang
from composer.hanging.weight import weight_of
from composer.model import CatalogueChange, CatalogueNotes, Frame, Hanger, HardwareChoice, Piece
from composer.units import Length


def mm(value: float) -> Length:
    return Length.of_mm(value)


OAK = Piece(
    key="p1",
    number=1,
    name="mill",
    frame=Frame(
        width=mm(500),
        height=mm(700),
        face=mm(30),
        lip=mm(6),
        moulding="oak",
        moulding_thickness=mm(20),
        rabbet_depth=mm(10),
        allowance=mm(3),
        glazing="glass",
        glazing_thickness=mm(2),
        backing="hardboard",
    ),
    hanger=Hanger(kind="sawtooth", drop=mm(20)),
    hardware=HardwareChoice(fixing="hook-one-nail"),
)


@pytest.fixture
def newer(monkeypatch: pytest.MonkeyPatch) -> Any:
    """A later catalogue, in which everything is heavier and every hook is longer."""

    def change() -> None:
        materials, fixings = shipped.materials(), shipped.fixings()
        heavier = msgspec.structs.replace(
            materials,
            mouldings=tuple(
                msgspec.structs.replace(one, specific_gravity=None, density_kg_m3=9999.0) for one in materials.mouldings
            ),
            backings=tuple(
                msgspec.structs.replace(one, grammage_g_m2=None, density_kg_m3=9999.0) for one in materials.backings
            ),
        )
        longer = msgspec.structs.replace(
            fixings, fixings=tuple(msgspec.structs.replace(one, offset_mm=50.0) for one in fixings.fixings)
        )
        monkeypatch.setattr(shipped, "materials", lambda: heavier)
        monkeypatch.setattr(shipped, "fixings", lambda: longer)
        catalogue.of.cache_clear()

    yield change
    monkeypatch.undo()
    catalogue.of.cache_clear()


def seen(notes: CatalogueNotes) -> tuple[float, float]:
    known = catalogue.of(notes)
    weight = weight_of(OAK, known)
    assert weight is not None
    return weight.kg, hang(OAK, catalogue=known).holes[0].y


def test_a_newer_catalogue_changes_no_pinned_plan(newer: Any) -> None:
    notes = pinned_for(CatalogueNotes(), [OAK])
    before = seen(notes)
    newer()
    assert seen(notes) == before
    loose = seen(CatalogueNotes())
    assert loose[0] > 2 * before[0]
    assert loose[1] - before[1] == 50.0 - 18.0


def test_what_is_pinned_once_stays_and_nothing_new_makes_no_new_notes() -> None:
    notes = pinned_for(CatalogueNotes(), [OAK])
    assert {(entry.kind, entry.id) for entry in notes.pinned} == {
        ("moulding", "oak"),
        ("glazing", "glass"),
        ("backing", "hardboard"),
        ("fixing", "hook-one-nail"),
    }
    assert pinned_for(notes, [OAK]) is notes


def test_the_packet_wins_over_the_pin_and_can_be_taken_back() -> None:
    typed = CatalogueNotes(changed=(CatalogueChange(entry="hook-one-nail", field="offset_mm", value=30.0),))
    notes = pinned_for(typed, [OAK])
    assert catalogue.of(notes).hook_offset_mm("hook-one-nail") == 30.0
    taken_back = msgspec.structs.replace(notes, changed=())
    assert catalogue.of(taken_back).hook_offset_mm("hook-one-nail") == 18.0


def test_pins_are_read_back_from_a_file() -> None:
    strips = msgspec.structs.replace(OAK, hanger=Hanger(kind="strips"))
    notes = pinned_for(CatalogueNotes(), [OAK, strips])
    read = msgspec.json.decode(msgspec.json.encode(notes), type=CatalogueNotes)
    assert catalogue.of(read).unread == ()
    assert catalogue.of(read).strip_classes == catalogue.usual().strip_classes
    assert catalogue.of(read).fixings == catalogue.usual().fixings
