"""What the next paper still needs, and never more than that (design: placed, hung, costed)."""

from decimal import Decimal
from typing import Any

import pytest

from composer.findings.readiness import missing, missing_words, stage, stage_words
from composer.model import Frame, Hanger, Piece
from composer.units import Length, Mass


def mm(value: float) -> Length:
    return Length.of_mm(value)


def piece(hanger: Hanger = Hanger(), frame: Frame | None = None, **more: Any) -> Piece:
    return Piece(
        key="p1", number=1, name="boats", frame=frame or Frame(width=mm(400), height=mm(500)), hanger=hanger, **more
    )


KNOWN = Hanger(kind="sawtooth", drop=mm(40))
KILO = Mass.from_text("1 kg")


@pytest.mark.parametrize(
    ("one", "reached", "lacking"),
    [
        (piece(), "placed", ("hanger", "weight")),
        (piece(Hanger(kind="d-rings")), "placed", ("drop", "spacing", "weight")),
        (piece(Hanger(kind="d-rings"), weight=KILO), "placed", ("drop", "spacing")),
        (piece(Hanger(kind="strips")), "placed", ("face", "weight")),
        (piece(Hanger(kind="ledge"), weight=KILO), "hung", ("price", "face")),
        (piece(KNOWN), "placed", ("weight",)),
        (piece(KNOWN, weight=KILO), "hung", ("price", "face")),
        (piece(KNOWN, weight=KILO, owned=True), "hung", ("face",)),
        (
            piece(
                KNOWN,
                Frame(width=mm(400), height=mm(500), face=mm(20), lip=mm(6), allowance=mm(3)),
                weight=KILO,
                price=Decimal("3.50"),
            ),
            "costed",
            (),
        ),
    ],
)
def test_stages(one: Piece, reached: str, lacking: tuple[str, ...]) -> None:
    assert stage(one) == reached
    assert missing(one) == lacking


def test_a_turned_piece_needs_its_own_hanger() -> None:
    assert missing(piece(KNOWN, weight=KILO), turned=True) == ("hanger",)


def test_in_words() -> None:
    assert missing_words(piece(Hanger(kind="d-rings"))) == "drop, spacing and weight"
    assert missing_words(piece(KNOWN)) == "weight"
    assert stage_words("placed") == "can be placed"
