"""An arrangement: where every piece goes. A project keeps several; one is current."""

from typing import Literal

import msgspec

from composer.model.scalars import BadRecord, Key, Pos, check_key, check_length, check_position, check_text
from composer.texts import N_, say
from composer.units import Length

Axis = Literal["x", "y"]
Edge = Literal["low", "centre", "high"]


class Placement(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """A piece on a wall: its lower left corner as hung, mm. A piece without a placement lies on the floor."""

    piece: Key
    wall: Key
    left: Pos
    bottom: Pos
    turned: bool = False
    locked: bool = False

    def __post_init__(self) -> None:
        check_key(self.piece, "p")
        check_key(self.wall, "w")
        check_position(self.left)
        check_position(self.bottom)


class SpacedFrom(
    msgspec.Struct,
    frozen=True,
    kw_only=True,
    forbid_unknown_fields=True,
    omit_defaults=True,
    tag_field="kind",
    tag="gap",
):
    """Intent: ``second`` stands one gap after ``first`` along ``axis``."""

    axis: Axis
    first: Key
    second: Key


class LevelWith(
    msgspec.Struct,
    frozen=True,
    kw_only=True,
    forbid_unknown_fields=True,
    omit_defaults=True,
    tag_field="kind",
    tag="line",
):
    """Intent: two pieces share an edge or a centre along ``axis``."""

    axis: Axis
    edge: Edge
    first: Key
    second: Key


class Ground(
    msgspec.Struct,
    frozen=True,
    kw_only=True,
    forbid_unknown_fields=True,
    omit_defaults=True,
    tag_field="kind",
    tag="ground",
):
    """Intent: a piece is held by something that is not a piece.

    ``to`` is ``wall-middle``, ``eye-line``, ``wall-edge`` or the key of an obstacle.
    """

    axis: Axis
    edge: Edge
    piece: Key
    to: str


Relation = SpacedFrom | LevelWith | Ground


class MadeBy(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """How an arrangement was found, so that it can be found again."""

    pattern: str
    seed: int = 0
    steps: int | None = None

    def __post_init__(self) -> None:
        check_text(self.pattern)


class Arrangement(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """Where the pieces go, over all walls.

    Attributes:
        gap: the distance wanted between neighbouring frames.
        placements: the pieces on walls; each piece at most once.
        floor_order: pieces on the floor from left to right; pieces not named follow by number.
        relations: stored intent; positions are the truth, an entry that no longer holds is dropped.
    """

    key: Key
    name: str
    gap: Length
    placements: tuple[Placement, ...] = ()
    floor_order: tuple[Key, ...] = ()
    relations: tuple[Relation, ...] = ()
    made_by: MadeBy | None = None
    note: str = ""

    def __post_init__(self) -> None:
        check_key(self.key, "h")
        check_text(self.name)
        if not self.name.strip():
            raise BadRecord(say("An arrangement needs a name."))
        check_length(self.gap, N_("gap"), zero=True)
        check_text(self.note, most=5000, lines=True)
        if len({placement.piece for placement in self.placements}) != len(self.placements):
            raise BadRecord(say("In the arrangement “{name}” a piece hangs twice.", name=self.name))

    def placement_of(self, piece: Key) -> Placement | None:
        """Where the piece hangs, or None when it lies on the floor."""
        for placement in self.placements:
            if placement.piece == piece:
                return placement
        return None
