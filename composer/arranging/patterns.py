"""The nine patterns by name, and what happens when one does not suit."""

from collections.abc import Callable
from contextlib import suppress
from dataclasses import replace
from typing import Protocol

from composer.arranging import block, lines, salon, symmetric, tables
from composer.arranging.fitting import binding_limit, fit
from composer.arranging.searching import Control
from composer.arranging.settling import Found, Unsuited
from composer.arranging.task import Task
from composer.texts import N_, say


class DoesNotFit(Exception):
    """Not everything fits on the wall; the message is a finished sentence that names the limit."""


class _Make(Protocol):
    def __call__(self, task: Task, *, seed: int, effort: float, control: Control) -> Found: ...


def _salon(task: Task, *, seed: int, effort: float, control: Control) -> Found:
    found = salon.salon(task, seed=seed, effort=effort, control=control.part(0, 0.9))
    if found is None:
        packed = block.packed_in(task, seed=seed, control=control.part(0.9, 0.95))
        if packed is not None:
            return Found("salon", packed, seed)
        raise DoesNotFit(binding_limit(task, control.part(0.95, 1)))
    if len({size[1:] for size in task.sizes}) == 1 and len(task.sizes) > 3 and not task.still:
        # Pieces all alike with one missing from a full grid look as if one had fallen down.
        with suppress(Unsuited):
            full = tables.grid(task, seed=seed, control=control.part(0.95, 1))
            if salon.worth(task, full.layout) > salon.worth(task, found.layout) - 0.05:
                return replace(full, pattern="salon")
    return found


PATTERNS: dict[str, _Make] = {
    "salon": _salon,
    "block": block.block,
    "row": lines.row,
    "column": lines.column,
    "grid": tables.grid,
    "rows": tables.rows,
    "cross": symmetric.cross,
    "stair": lines.stair,
    "mirror": symmetric.mirror,
}
"""Name in calls and files → how it is made."""

NAMES = {
    "salon": N_("Salon hang"),
    "block": N_("Block"),
    "row": N_("Row"),
    "column": N_("Column"),
    "grid": N_("Grid"),
    "rows": N_("Rows"),
    "cross": N_("Cross"),
    "stair": N_("Stair"),
    "mirror": N_("Mirror"),
}
"""Name in calls and files → as it is called on screen (untranslated catalogue entries)."""


def arrange(task: Task, pattern: str, *, seed: int = 0, effort: float = 1.0, control: Control | None = None) -> Found:
    """The task's pieces in a pattern.

    Args:
        task: what is arranged; without pieces the answer is empty.
        pattern: a name of :data:`PATTERNS`.
        seed: the same seed gives the same coordinates, on any machine.
        effort: 1 for an answer that counts, less for a quick sketch.
        control: progress and cancelling.

    Raises:
        KeyError: for an unknown pattern.
        DoesNotFit: not everything fits; asked before searching where that can be known.
        Unsuited: the pattern does not suit these pieces on this wall.
        Cancelled: by the person.
    """
    make: Callable[..., Found] = PATTERNS[pattern]
    control = control or Control()
    if not task.sizes:
        return Found(pattern, (), seed)
    answer = fit(task)
    if not answer.possible:
        raise DoesNotFit(answer.sentence)
    airy = with_air(task)
    if airy is task or not fit(airy).possible:
        return make(task, seed=seed, effort=effort, control=control)
    try:
        return make(airy, seed=seed, effort=effort, control=control.part(0, 0.6))
    except (DoesNotFit, Unsuited):
        if pattern not in NEEDS_ONLY_ROOM:
            raise
    return make(task, seed=seed, effort=effort, control=control.part(0.6, 1))


AIR_MOST_MM = 50.0

NEEDS_ONLY_ROOM = ("salon", "block")
"""Patterns that use a crowded wall up to its edges before they say no."""


def with_air(task: Task) -> Task:
    """The same wall with a gap, 50 mm at most, kept free along its edges: a group that touches a corner looks squeezed in."""
    margin = max(task.room.edge_margin, min(task.gap, AIR_MOST_MM))
    if margin == task.room.edge_margin:
        return task
    return replace(task, room=replace(task.room, edge_margin=margin))


def pattern_name(pattern: str) -> str:
    """What a pattern is called on screen."""
    return say(NAMES[pattern])
