"""What to look for second-hand: sizes that would fill a place on this wall.

A piece that hangs in the plan but is not owned yet is a place to be filled; so is a hole in the group.
"""

from dataclasses import dataclass

from composer.geometry.rectangle import Rectangle
from composer.model import Arrangement, Piece, Project, Wall
from composer.rehang.places import Surroundings, holes_in_group, largest_around

LEAST_SHARE = 2 / 3
"""A frame with sides under two thirds of the place looks lost in it (judgement)."""


@dataclass(frozen=True, slots=True)
class HuntedPlace:
    """A place to be filled.

    Attributes:
        number: of the piece that stands for it in the plan; None for a hole in the group.
        place: the largest outside that keeps the gaps.
        least_mm: width and height below which a frame looks lost.
        piece: the piece that stands for it.
    """

    number: int | None
    place: Rectangle
    least_mm: tuple[float, float]
    piece: Piece | None = None

    def takes(self, width_mm: float, height_mm: float) -> bool:
        """Whether a frame of that outside fills the place."""
        fits = width_mm <= self.place.width + 1e-6 and height_mm <= self.place.height + 1e-6
        return fits and width_mm >= self.least_mm[0] - 1e-6 and height_mm >= self.least_mm[1] - 1e-6


def hunted_places(project: Project, wall: Wall, arrangement: Arrangement, most: int = 3) -> tuple[HuntedPlace, ...]:
    """Places on one wall still to be filled: pieces not owned first, by number, then holes in the group."""
    found: list[HuntedPlace] = []
    for piece, place in project.hung_on(wall.key, arrangement):
        if piece.owned or len(found) == most:
            continue
        own = Rectangle.at(place.left, place.bottom, *piece.size_mm(turned=place.turned))
        around = Surroundings(project, wall, arrangement, without={piece.key})
        group = Surroundings(project, wall, arrangement).group
        assert group is not None
        grown = [_no_larger(place, own) for place in largest_around(around, own, group)] or [own]
        found.append(_hunted(min(grown, key=lambda place: (-place.width * place.height, place)), piece))
    if len(found) < most:
        around = Surroundings(project, wall, arrangement)
        taken = [one.place.grown(around.gap) for one in found]
        holes = [place for place in holes_in_group(around, most=9) if not any(place.meets(other) for other in taken)]
        found += [_hunted(place, None) for place in holes[: most - len(found)]]
    return tuple(found)


def _no_larger(place: Rectangle, own: Rectangle) -> Rectangle:
    """No more than one and a half times what is planned each way: the planned frame must not look lost in it."""
    wide, high = own.width / LEAST_SHARE, own.height / LEAST_SHARE
    left, bottom = max(place.left, own.right - wide), max(place.bottom, own.top - high)
    return Rectangle(left, bottom, min(place.right, left + wide), min(place.top, bottom + high))


def _hunted(place: Rectangle, piece: Piece | None) -> HuntedPlace:
    least = (place.width * LEAST_SHARE, place.height * LEAST_SHARE)
    return HuntedPlace(None if piece is None else piece.number, place, least, piece)
