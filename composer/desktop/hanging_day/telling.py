"""What stands on the screen at a moment of the day, as words and numbers; nothing here knows how it is drawn."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Literal

from composer.model import Key
from composer.texts import say

State = Literal["done", "waiting", "now", "open"]
Sign = Literal["", "tick", "clock", "back", "next"]
Second = Literal["", "again", "wrong", "wait", "order"]

LETTERS = "ABCDEFGH"
"""Names of holes and strips of one piece, from left to right, the upper before the lower."""


@dataclass(frozen=True, slots=True)
class Pass:
    """One of the passes of the day, in the head."""

    name: str
    note: str
    state: State


@dataclass(frozen=True, slots=True)
class Chip:
    """A piece in the order of the day."""

    key: Key
    number: int
    state: State


@dataclass(frozen=True, slots=True)
class Figure:
    """A number to read from the ladder, what it is, and the same from elsewhere."""

    label: str
    number: str
    note: str = ""


@dataclass(frozen=True, slots=True)
class Mind:
    """Something found about the piece in hand that the person on the ladder must know."""

    level: Literal["stop", "warn"]
    words: str


@dataclass(frozen=True, slots=True)
class ClockFace:
    """A running clock: the number, its unit, how much of it has passed, 0 to 1, and the time of day."""

    number: str
    unit: str
    share: float
    over: bool = False
    note: str = ""


@dataclass(frozen=True, slots=True)
class Label:
    """A button: what it does, and a word about it; not ready means it says why when pressed."""

    words: str
    note: str = ""
    sign: Sign = ""
    ready: bool = True


@dataclass(frozen=True, slots=True)
class Told:
    """Everything on the screen.

    Attributes:
        wall, count: the wall and how far the day has come.
        passes, chips: where the person is in it.
        number, name, how: the piece in hand; number None = none.
        lead, note: what to do now, and how.
        figures, clock: what leads; ``small`` figures only check what a paper or a drawing shows.
        checks: distances to neighbours, one sentence.
        lines: what else is worth knowing, the most important first.
        minds: what is wrong with hanging it so, stops first.
        call: a sign that a clock has run out.
        said: why nothing happened, or what did.
        main, second, second_is: the two buttons of the step.
        back, forward: where the arrows lead; empty = nowhere.
    """

    wall: str
    count: str
    passes: tuple[Pass, ...] = ()
    chips: tuple[Chip, ...] = ()
    number: int | None = None
    name: str = ""
    how: str = ""
    lead: str = ""
    note: str = ""
    figures: tuple[Figure, ...] = ()
    small: bool = False
    clock: ClockFace | None = None
    checks: str = ""
    lines: tuple[str, ...] = ()
    minds: tuple[Mind, ...] = ()
    call: str = ""
    said: str = ""
    main: Label = field(default_factory=lambda: Label(""))
    second: Label = field(default_factory=lambda: Label(""))
    second_is: Second = ""
    back: str | None = None
    forward: str | None = None

    @property
    def spoken(self) -> str:
        """The same for readers, what to do first."""
        piece = "" if self.number is None else say("{number} {name}", number=self.number, name=self.name)
        figures = [say("{number} {label}", number=one.number, label=one.label) for one in self.figures]
        clock = "" if self.clock is None else f"{self.clock.number} {self.clock.unit}"
        minds = [one.words for one in self.minds]
        parts = [self.call, piece, *minds, self.lead, *figures, clock, self.note, self.checks, *self.lines]
        return ". ".join(part.rstrip(".") for part in parts if part) + "."
