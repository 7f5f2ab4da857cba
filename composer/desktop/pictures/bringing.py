"""Dropped files and folders looked into, for a job beside the window; the order in which they came is kept."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path

from composer.desktop.pictures.long_job import Halted
from composer.pictures.bringing_in import Brought, bring_in
from composer.pictures.previews import Previews
from composer.pictures.whereabouts import pictures_in


def brought_in(
    places: Sequence[Path], previews: Path | None, side: int, tell: Callable[[int, int], bool]
) -> list[Brought]:
    """Every picture in these places, with a preview kept, in the order in which they were given.

    Raises:
        Halted: ``tell`` said so; previews made so far stay, nothing else does.
    """
    stopped = False

    def cancelled() -> bool:
        return stopped

    files = pictures_in(places, cancelled)
    found: dict[Path, Brought] = {}
    stopped = not tell(0, len(files))
    for one in bring_in(files, Previews(previews), side, cancelled=cancelled):
        found[one.path] = one
        stopped = stopped or not tell(len(found), len(files))
    if stopped:
        raise Halted
    return [found[path] for path in files if path in found]
