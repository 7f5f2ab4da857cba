"""Names of things that are bought: in the manual, and found by a price row however it is written."""

import pytest

from composer.catalogue.catalogue import usual
from composer.costing.items import BUMPER, FILLER, FRAME, PAINT, PAPER, SANDPAPER, TAPE, WIPE, item_key, item_name
from composer.costing.shown import show_money
from composer.resources import resource
from tests.costing.projects import euro


def test_the_manual_lists_the_items_that_are_no_catalogue_ids() -> None:
    text = resource("help/manual.md").read_text(encoding="utf-8")
    for item in (FRAME, BUMPER, WIPE, TAPE, FILLER, SANDPAPER, PAINT, PAPER, *usual().glazing):
        assert f"`{item}`" in text


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("strips-medium", "Medium strips"),
        ("hook-one-nail", "one-nail hooks"),
        ("8x10in", "8 × 10 in"),
        ("20x25cm", "20 X 25 cm"),
        ("mat-4-ply white", "white mat 4-ply"),
        ("bumper", "Bumpers"),
    ],
)
def test_a_name_is_the_same_in_other_words(one: str, other: str) -> None:
    assert item_key(one) == item_key(other)


def test_different_things_have_different_names() -> None:
    known = usual()
    items = [
        *known.fixings,
        *(strip.id for strip in known.strip_classes.values()),
        "4x6in",
        "6x8in",
        FRAME,
        PAPER,
        BUMPER,
    ]
    assert len({item_key(item) for item in items}) == len(items)


def test_every_small_thing_has_a_name_of_its_own() -> None:
    names = {item_name("small", item, usual()) for item in (BUMPER, WIPE, TAPE, FILLER, SANDPAPER, PAINT)}
    assert len(names) == 6


def test_amounts_are_shown_as_their_currency_has_them() -> None:
    """ISO 4217: the euro has two decimals, the yen none; a true minus, thousands set apart."""
    assert show_money(euro("1234.5"), "EUR") == "1\u00a0234.50"
    assert show_money(euro("1234.5"), "JPY") == "1\u00a0235"
    assert show_money(euro("-7.2"), "EUR") == "−7.20"
