"""A finding: something wrong, risky or left to do, as a code with the values its sentence needs."""

from typing import Literal

import msgspec

Level = Literal["stop", "warn", "note"]

LEVEL_ORDER: dict[Level, int] = {"stop": 0, "warn": 1, "note": 2}


class Finding(msgspec.Struct, frozen=True, kw_only=True, omit_defaults=True):
    """One thing found by the checks; its sentence is made from ``code`` and ``values`` on demand.

    Attributes:
        level: ``stop`` (do not go on like this), ``warn`` or ``note``.
        code: short name of the rule, stable between versions.
        pieces: numbers of the pieces concerned, smallest first; empty when it is about a wall.
        wall: key of the wall it is about, or None.
        values: what the sentence mentions, by name: numbers in millimetres or kilograms, or words.
        overridden: the reason the person typed for going on against a stop, or None.
    """

    level: Level
    code: str
    pieces: tuple[int, ...] = ()
    wall: str | None = None
    values: tuple[tuple[str, str | int | float], ...] = ()
    overridden: str | None = None

    @property
    def order(self) -> tuple[int, float, str, tuple[int, ...]]:
        """Sort key: stop, warn, note; then the smallest piece number; then the code."""
        first = self.pieces[0] if self.pieces else float("inf")
        return (LEVEL_ORDER[self.level], first, self.code, self.pieces)
