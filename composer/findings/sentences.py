"""What a finding says, and what to do about it, in the project's units and the person's language."""

from composer.findings import (
    of_money,
    sentences_of_arrangement,
    sentences_of_hanging,
    sentences_of_hazards,
    sentences_of_piece,
    sentences_of_place,
    sentences_of_print,
)
from composer.findings.words import Sentences, Words
from composer.model import Finding
from composer.texts import say
from composer.units import LengthStyle


def text(finding: Finding, style: LengthStyle | None = None) -> str:
    """What is wrong, where and why, in one or two sentences; ``style`` None shows millimetres."""
    return _SENTENCES.get(finding.code, _UNKNOWN)[0](Words(finding, style))


def do(finding: Finding, style: LengthStyle | None = None) -> str:
    """What to do about it, as an order."""
    return _SENTENCES.get(finding.code, _UNKNOWN)[1](Words(finding, style))


def _unknown(words: Words) -> str:
    return say("Something is to be looked at: {code}.", code=words.finding.code)


def _look(_: Words) -> str:
    return say("Look at it.")


_UNKNOWN = (_unknown, _look)

_SENTENCES: Sentences = {
    **sentences_of_place.SENTENCES,
    **sentences_of_piece.SENTENCES,
    **sentences_of_hanging.SENTENCES,
    **sentences_of_hazards.SENTENCES,
    **sentences_of_print.SENTENCES,
    **sentences_of_arrangement.SENTENCES,
    **of_money.SENTENCES,
}

CODES = tuple(_SENTENCES)
"""Every code the checks may give."""
