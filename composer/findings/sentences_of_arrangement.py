"""Sentences about how pieces stand to each other: gaps, edges that nearly line up."""

from composer.findings.words import Sentences, Words
from composer.texts import say


def _gap_uneven(words: Words) -> str:
    first, second = words.finding.pieces
    return say(
        "Between {first} and {second} the gap is {gap}; the others are to be {wanted}.",
        first=first,
        second=second,
        gap=words.mm("gap_mm"),
        wanted=words.mm("wanted_mm"),
    )


def _gap_uneven_do(_: Words) -> str:
    return say("True up, or set the gap wide enough to look meant.")


def _near_miss(words: Words) -> str:
    first, second = words.finding.pieces
    off = words.mm("off_mm")
    if words.word("axis") == "y":
        if words.word("edge") == "high":
            return say(
                "The upper edges of {first} and {second} miss each other by {off}.", first=first, second=second, off=off
            )
        return say(
            "The lower edges of {first} and {second} miss each other by {off}.", first=first, second=second, off=off
        )
    if words.word("edge") == "low":
        return say(
            "The left edges of {first} and {second} miss each other by {off}.", first=first, second=second, off=off
        )
    return say("The right edges of {first} and {second} miss each other by {off}.", first=first, second=second, off=off)


def _near_miss_do(words: Words) -> str:
    return say("Move one of them by {off}, or true up.", off=words.mm("off_mm"))


SENTENCES: Sentences = {
    "gap-uneven": (_gap_uneven, _gap_uneven_do),
    "near-miss": (_near_miss, _near_miss_do),
}
"""Code → what is said, what to do."""
