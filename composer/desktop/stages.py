"""How far the work on a piece has come, in words."""

from composer.model.piece import Stage
from composer.texts import N_, say

STAGES: tuple[tuple[Stage | None, str], ...] = (
    (None, N_("not noted")),
    ("to-measure", N_("to measure")),
    ("print-ordered", N_("print ordered")),
    ("print-here", N_("print here")),
    ("framed", N_("framed")),
    ("ready", N_("ready")),
)


def stage_choices() -> list[tuple[Stage | None, str]]:
    """Every stage with its word, for a field."""
    return [(stage, say(words)) for stage, words in STAGES]


def noted_words(stage: Stage | None) -> str:
    """The word of one."""
    return say(dict(STAGES)[stage])
