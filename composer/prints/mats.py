"""The mat: its window, how the board is shared out around it, its layers, its bevel, and the stack behind the lip.

One convention everywhere: the window is the small opening, what shows of the picture; a bevel makes
the opening in the board's face larger, not the window smaller.
"""

import math
from dataclasses import dataclass
from typing import Literal

from composer.catalogue.catalogue import Catalogue
from composer.hanging.weight import USUAL_BACKING, USUAL_BOARD, USUAL_PAPER
from composer.model import (
    Borders,
    CustomBorders,
    Frame,
    Mat,
    MatLayer,
    RatioBorders,
    Units,
    WeightedBorders,
)

LEAST_BORDER_MM = 10.0
"""A mat's strip narrower than this bends and shows (judgement)."""


@dataclass(frozen=True, slots=True)
class MatBorders:
    """Width of the board on each side of the window, mm; the lip hides part of it."""

    top: float
    bottom: float
    left: float
    right: float


@dataclass(frozen=True, slots=True)
class LayerPlan:
    """One board: its opening, the small one, mm, and how much of it shows beyond the one above."""

    layer: MatLayer
    opening_mm: tuple[float, float]
    reveal_mm: float


@dataclass(frozen=True, slots=True)
class MatPlan:
    """A mat worked out.

    Attributes:
        outer_mm: the board, which is the glass size.
        window_mm: what shows of the picture.
        borders: from the board's edges to the window.
        overlap_mm: how far the mat covers the print, each side; negative = the print floats free.
        print_mm: the size the print must at least have; where it floats, exactly have.
        layers: top board first; at least one.
        bevel: whether the windows are cut at 45°.
        thickness_mm: of the top board.
    """

    outer_mm: tuple[float, float]
    window_mm: tuple[float, float]
    borders: MatBorders
    overlap_mm: float
    print_mm: tuple[float, float]
    layers: tuple[LayerPlan, ...]
    bevel: bool
    thickness_mm: float

    @property
    def floats(self) -> bool:
        """Whether the whole print shows, with some of its ground around it."""
        return self.overlap_mm < 0

    @property
    def hidden_mm(self) -> float:
        """The strip of the print under the mat on each side, mm."""
        return max(0.0, self.overlap_mm)

    @property
    def narrowest_mm(self) -> float:
        """The narrowest border of the top board, mm."""
        across, up = self.layers[0].opening_mm[0] - self.window_mm[0], self.layers[0].opening_mm[1] - self.window_mm[1]
        four = self.borders
        return min(four.left - across / 2, four.right - across / 2, four.top - up / 2, four.bottom - up / 2)


@dataclass(frozen=True, slots=True)
class MatRefused:
    """A mat that cannot be cut: ``no-board`` is left beside the window, or the window is not ``decided``."""

    why: Literal["no-board", "undecided"]


def layout(
    outer_mm: tuple[float, float],
    mat: Mat,
    units: Units,
    *,
    art_mm: tuple[float, float] | None = None,
    catalogue: Catalogue | None = None,
    turned: bool = False,
) -> MatPlan | MatRefused:
    """The mat for a frame whose glass is ``outer_mm`` large, as hung.

    Args:
        outer_mm: width and height of the board.
        mat: as typed; a typed window wins, then typed borders, then the print with its overlap.
        units: what is usual where nothing was typed.
        art_mm: the print at hand, for a window that follows from it.
        catalogue: for the board's thickness; None = the usual.
        turned: the piece hangs a quarter turned, and so does a typed window.
    """
    overlap = mat.overlap_mm(units)
    window = mat.window_mm(outer_mm, art_mm=art_mm, overlap_mm=overlap, turned=turned)
    if window is None:
        return MatRefused("undecided")
    borders = share(outer_mm, window, mat.borders)
    boards = mat.layers or (MatLayer(board=USUAL_BOARD),)
    layers = _layers(window, boards)
    thickness = _thickness(boards[0].board, catalogue)
    plan = MatPlan(
        outer_mm,
        window,
        borders,
        overlap,
        (window[0] + 2 * overlap, window[1] + 2 * overlap),
        layers,
        mat.bevel,
        thickness,
    )
    if min(*window, *plan.print_mm, plan.narrowest_mm) <= 0:
        return MatRefused("no-board")
    return plan


def share(outer_mm: tuple[float, float], window_mm: tuple[float, float], borders: Borders) -> MatBorders:
    """The board shared out around the window.

    Sides are even. Bottom-weighted by an amount: top = (v − extra) ÷ 2; by a ratio k: top = v ÷ (1 + k),
    "3 to 4" being k = 4/3 (US Navy training manual NAVEDTRA 14066, p. 2-32). Typed borders count from
    the left and the top.
    """
    across, up = outer_mm[0] - window_mm[0], outer_mm[1] - window_mm[1]
    left, top = across / 2, up / 2
    if isinstance(borders, WeightedBorders):
        top = (up - float(borders.extra.mm)) / 2
    elif isinstance(borders, RatioBorders):
        top = up / (1 + borders.bottom_to_top)
    elif isinstance(borders, CustomBorders):
        left, top = float(borders.left.mm), float(borders.top.mm)
    return MatBorders(top, up - top, left, across - left)


def _layers(window: tuple[float, float], boards: tuple[MatLayer, ...]) -> tuple[LayerPlan, ...]:
    """Openings from the innermost board up: each board above opens by twice the reveal more."""
    plans: list[LayerPlan] = []
    opening, shown = window, 0.0
    for layer in reversed(boards):
        opening = (opening[0] + 2 * shown, opening[1] + 2 * shown)
        own = 0.0 if layer is boards[0] else 6.0 if layer.reveal is None else float(layer.reveal.mm)
        plans.append(LayerPlan(layer, opening, own))
        shown = own
    return tuple(reversed(plans))


def _thickness(board: str, catalogue: Catalogue | None) -> float:
    if catalogue is None:
        return 1.4
    record = catalogue.boards.get(board) or catalogue.boards[USUAL_BOARD]
    return record.usual_mm or 1.4


def bevel_mm(opening_mm: tuple[float, float], thickness_mm: float) -> tuple[tuple[float, float], float]:
    """Opening in the face and width of the slope for a 45° bevel: 2t wider, t·√2 along the slope, mm."""
    face = (opening_mm[0] + 2 * thickness_mm, opening_mm[1] + 2 * thickness_mm)
    return face, thickness_mm * math.sqrt(2)


def frame_sizes(
    content_mm: tuple[float, float], face_mm: float, lip_mm: float, allowance_mm: float
) -> tuple[tuple[float, float], tuple[float, float], tuple[float, float]]:
    """Rabbet, sight and outside size of a frame around a content, mm.

    rabbet = content + allowance; sight = rabbet − 2 · lip; outside = sight + 2 · face.
    """
    rabbet = (content_mm[0] + allowance_mm, content_mm[1] + allowance_mm)
    sight = (rabbet[0] - 2 * lip_mm, rabbet[1] - 2 * lip_mm)
    return rabbet, sight, (sight[0] + 2 * face_mm, sight[1] + 2 * face_mm)


@dataclass(frozen=True, slots=True)
class StackPart:
    """One sheet behind the lip, front to back: what it is and how thick, mm; ``assumed`` = nobody measured."""

    what: Literal["glazing", "mat", "print", "backing"]
    mm: float
    assumed: bool


def stack(frame: Frame, mat: Mat | None, catalogue: Catalogue, paper: str | None = None) -> tuple[StackPart, ...]:
    """What lies in the rabbet, front to back."""
    parts: list[StackPart] = []
    if frame.glazing in ("glass", "acrylic", "styrene"):
        usual = catalogue.glazing[frame.glazing].usual_mm or 2.0
        parts.append(_part("glazing", None if frame.glazing_thickness is None else frame.glazing_thickness.mm, usual))
    for layer in () if mat is None else mat.layers or (MatLayer(board=USUAL_BOARD),):
        parts.append(StackPart("mat", _thickness(layer.board, catalogue), not mat.layers if mat else True))
    record = catalogue.papers.get(paper or "") or catalogue.papers[USUAL_PAPER]
    parts.append(StackPart("print", record.usual_mm or 0.25, True))
    backing = catalogue.backings.get(frame.backing or "") or catalogue.backings[USUAL_BACKING]
    measured = None if frame.backing_thickness is None else frame.backing_thickness.mm
    parts.append(_part("backing", measured, backing.usual_mm or 2.5))
    return tuple(parts)


def _part(what: Literal["glazing", "backing"], measured: float | None, usual: float) -> StackPart:
    return StackPart(what, usual if measured is None else float(measured), measured is None)


def stack_mm(parts: tuple[StackPart, ...]) -> float:
    """Thickness of the whole stack, mm."""
    return sum(part.mm for part in parts)
