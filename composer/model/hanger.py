"""What the frame hangs by, and what is chosen to hold it on the wall.

A hanger is one flat record whose ``kind`` says which measures count. So a person who finds that
the "wire" is really a pair of D-rings changes one word and loses no measurement, and a table row
that gives a drop before anyone looked at the back keeps it.
"""

from typing import Literal

import msgspec

from composer.model.scalars import BadRecord, check_length, check_text
from composer.texts import N_, say
from composer.units import Length

HangerKind = Literal["wire", "sawtooth", "d-rings", "keyholes", "strips", "cleat", "ledge"]
StripSize = Literal["small", "medium", "large"]


class Hanger(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """The back of the frame as measured; left and right as seen from the FRONT; None = not measured.

    Attributes:
        kind: how the piece hangs; None = nobody has looked yet.
        drop: from the frame's top edge down to the loaded hanging point, the left one of two.
        drop_right: the right point's drop, where it differs.
        spacing: between the two points of D-rings, keyholes or a cleat; between a wire's rings.
        offset: middle of the hanger right of the frame's middle; negative = left of it.
        wire: the wire's length from ring to ring, pulled straight.
        ring_drop, ring_drop_right: top edge down to the wire's rings.
        hooks: how many hooks carry the wire, 1 or 2.
        hook_spacing: between those two hooks.
        wire_class: catalogue id of the wire.
        strip_size, strip_pairs: strips as decided by the person; None = follows from the frame.
        strip_half: strips cut lengthwise to fit a narrow moulding (voids the packet's rating).
    """

    kind: HangerKind | None = None
    drop: Length | None = None
    drop_right: Length | None = None
    spacing: Length | None = None
    offset: Length | None = None
    wire: Length | None = None
    ring_drop: Length | None = None
    ring_drop_right: Length | None = None
    hooks: Literal[1, 2] = 1
    hook_spacing: Length | None = None
    wire_class: str | None = None
    strip_size: StripSize | None = None
    strip_pairs: Literal[2, 4] | None = None
    strip_half: bool = False

    def __post_init__(self) -> None:
        check_length(self.drop, N_("drop"), zero=True)
        check_length(self.drop_right, N_("right drop"), zero=True)
        check_length(self.spacing, N_("spacing"))
        check_length(self.wire, N_("wire's length"))
        check_length(self.ring_drop, N_("rings' drop"), zero=True)
        check_length(self.ring_drop_right, N_("right ring's drop"), zero=True)
        check_length(self.hook_spacing, N_("spacing of the hooks"))
        check_text(self.wire_class or "")


class HardwareChoice(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """The fixing a person chose for a piece, pinned so that a saved wall never moves.

    Attributes:
        fixing: catalogue id.
        count: how many of it; one per hanging point as a rule.
        hook_offset: from the hook's seat up to its nail hole; negative for a screw under a ring.
    """

    fixing: str
    count: int = 1
    hook_offset: Length | None = None

    def __post_init__(self) -> None:
        check_text(self.fixing)
        if not 1 <= self.count <= 99:
            raise BadRecord(say("A piece hangs on 1 to 99 fixings, not {count}.", count=self.count))
