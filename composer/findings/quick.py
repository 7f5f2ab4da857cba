"""The two checks asked on every step of a drag: overlap and outside-wall, on rectangles alone."""

from collections.abc import Sequence
from typing import NamedTuple

from composer.geometry.outline import Corners, contains
from composer.geometry.rectangle import Rectangle


class Trouble(NamedTuple):
    """What is wrong with one moving rectangle where it is now.

    ``meets``: indices of the resting rectangles it overlaps; ``outside``: it reaches beyond the outline.
    """

    meets: tuple[int, ...]
    outside: bool


def quick_findings(moving: Sequence[Rectangle], resting: Sequence[Rectangle], corners: Corners) -> tuple[Trouble, ...]:
    """The trouble of each moving rectangle, in their order; moving ones keep their distances and are not compared."""
    return tuple(
        Trouble(
            tuple(index for index, other in enumerate(resting) if place.meets(other)),
            not contains(corners, place),
        )
        for place in moving
    )
