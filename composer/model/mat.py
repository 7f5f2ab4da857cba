"""The mat: board, window, overlap and borders, in framers' terms."""

import msgspec

from composer.model.scalars import BadRecord, check_length, check_text
from composer.texts import N_, say
from composer.units import Length


class MatLayer(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """One board of the mat; the first is the top one. ``reveal``: how much of it shows beyond the one above."""

    board: str
    colour: str | None = None
    reveal: Length | None = None

    def __post_init__(self) -> None:
        check_text(self.board)
        check_text(self.colour or "")
        check_length(self.reveal, N_("reveal"))


class EvenBorders(
    msgspec.Struct,
    frozen=True,
    kw_only=True,
    forbid_unknown_fields=True,
    omit_defaults=True,
    tag_field="kind",
    tag="even",
):
    """All four borders alike; ``border`` None = what the window leaves."""

    border: Length | None = None

    def __post_init__(self) -> None:
        check_length(self.border, N_("mat's border"))


class WeightedBorders(
    msgspec.Struct,
    frozen=True,
    kw_only=True,
    forbid_unknown_fields=True,
    omit_defaults=True,
    tag_field="kind",
    tag="weighted",
):
    """Bottom-weighted: the bottom border is ``extra`` wider than the top."""

    extra: Length

    def __post_init__(self) -> None:
        check_length(self.extra, N_("extra at the bottom"))


class RatioBorders(
    msgspec.Struct,
    frozen=True,
    kw_only=True,
    forbid_unknown_fields=True,
    omit_defaults=True,
    tag_field="kind",
    tag="ratio",
):
    """Bottom-weighted: bottom border ÷ top border, 4/3 by a training text's "3 to 4"."""

    bottom_to_top: float

    def __post_init__(self) -> None:
        if not 1 <= self.bottom_to_top <= 4:
            raise BadRecord(
                say("The bottom border is 1 to 4 times the top one, not {ratio}.", ratio=self.bottom_to_top)
            )


class CustomBorders(
    msgspec.Struct,
    frozen=True,
    kw_only=True,
    forbid_unknown_fields=True,
    omit_defaults=True,
    tag_field="kind",
    tag="custom",
):
    """Four borders as typed."""

    top: Length
    bottom: Length
    left: Length
    right: Length

    def __post_init__(self) -> None:
        for border in (self.top, self.bottom, self.left, self.right):
            check_length(border, N_("mat's border"))


Borders = EvenBorders | WeightedBorders | RatioBorders | CustomBorders


class Mat(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """A mat of one to three boards; its window is always the small opening (a bevel widens the face).

    Attributes:
        layers: the boards, top one first; empty = not chosen yet.
        window_width, window_height: None = from the print and the overlap, or from the borders.
        overlap: how far the mat covers the print, each side; negative = the print floats free.
        borders: how the board is shared out around the window.
        bevel: cut at 45°, not square.
    """

    layers: tuple[MatLayer, ...] = ()
    window_width: Length | None = None
    window_height: Length | None = None
    overlap: Length | None = None
    borders: Borders = EvenBorders()
    bevel: bool = True

    def __post_init__(self) -> None:
        if len(self.layers) > 3:
            raise BadRecord(say("A mat has one to three boards, not {count}.", count=len(self.layers)))
        check_length(self.window_width, N_("mat window's width"))
        check_length(self.window_height, N_("mat window's height"))
