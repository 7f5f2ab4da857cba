"""The mat: board, window, overlap and borders, in framers' terms."""

import msgspec

from composer.model.scalars import BadRecord, Units, check_length, check_text
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


USUAL_OVERLAP_MM: dict[Units, float] = {"metric": 3.0, "imperial": 3.175}
"""How far a mat covers the print each side where nobody said: 1/8 in for small work (framers' common practice)."""


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

    def overlap_mm(self, units: Units) -> float:
        """How far it covers the print on each side, mm; what is usual where nobody said."""
        return USUAL_OVERLAP_MM[units] if self.overlap is None else float(self.overlap.mm)

    def window_mm(
        self,
        outside_mm: tuple[float, float],
        *,
        art_mm: tuple[float, float] | None = None,
        overlap_mm: float = 0.0,
        turned: bool = False,
    ) -> tuple[float, float] | None:
        """The window in a board of this size, mm, by side: as typed, else what borders leave, else from the print.

        Args:
            outside_mm: width and height of the board, as it hangs.
            art_mm: the print at hand; None = there is none to go by.
            overlap_mm: how far the mat covers that print.
            turned: it hangs a quarter turned, and so does a typed window.

        Returns:
            None where nothing decides it; sides are not positive where borders leave nothing.
        """
        typed = [self.window_width, self.window_height]
        if turned:
            typed.reverse()
        borders = self.borders
        off: tuple[float, float] | None = None
        if isinstance(borders, EvenBorders) and borders.border is not None:
            off = (2 * float(borders.border.mm), 2 * float(borders.border.mm))
        elif isinstance(borders, CustomBorders):
            off = (
                float(borders.left.mm) + float(borders.right.mm),
                float(borders.top.mm) + float(borders.bottom.mm),
            )
        sides: list[float] = []
        for axis, side in enumerate(typed):
            if side is not None:
                sides.append(float(side.mm))
            elif off is not None:
                sides.append(outside_mm[axis] - off[axis])
            elif art_mm is not None:
                sides.append(art_mm[axis] - 2 * overlap_mm)
            else:
                return None
        return sides[0], sides[1]
