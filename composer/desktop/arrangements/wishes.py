"""What is wished of sketches: pieces that stay, gap, width, height above furniture.

The gap belongs to the arrangement, the height to what hangs: their sliders change the project, each visit as one
step of undo. Width, the pieces kept and the pieces chosen are wishes of this search alone.
"""

from __future__ import annotations

from collections.abc import Callable

from composer.arranging.from_project import task_of
from composer.arranging.task import Task
from composer.desktop.cards.session import try_apply
from composer.desktop.open_project import OpenProject
from composer.desktop.selection import Selection
from composer.editing.arranging_edits import keeping, shift_group
from composer.editing.edits import MergeKey
from composer.editing.project_edits import set_gap
from composer.model import Key
from composer.units import MM_PER_INCH, Length


class Wishes:
    """Of one wall, while sketches of it are shown.

    Args:
        opened, selection: the project and what is selected.
        wall: which wall.
        changed: called when something is wished otherwise, at once.
        rested: called when what was wished is to be looked for.
    """

    def __init__(
        self,
        opened: OpenProject,
        selection: Selection,
        wall: Key,
        changed: Callable[[], object],
        rested: Callable[[], object],
    ) -> None:
        self._opened, self._selection, self.wall = opened, selection, wall
        self._changed, self._rested = changed, rested
        self.kept: frozenset[Key] = frozenset()
        self.only: frozenset[Key] | None = None
        """Pieces to be arranged; None = all of the floor and of the wall."""
        self.width_mm: float | None = None
        self.above_mm: float | None = None
        self.note = ""
        """Why what hangs could not follow, or nothing."""

    def task(self) -> Task:
        """What is asked now, of the project as it is."""
        hung = self._opened.project.placement_by_piece
        self.kept = frozenset(key for key in self.kept if key in hung)
        if self.only is not None:
            self.only = frozenset(key for key in self.only if key in self._opened.project.piece_by_key) or None
        return task_of(
            self._opened.project,
            self.wall,
            pieces=self.only,
            keep=self.kept,
            above_mm=self.above_mm,
            width_mm=self.width_mm,
        )

    def selected(self) -> frozenset[Key]:
        """The selected pieces of the wall."""
        placed = self._opened.project.placement_by_piece
        return frozenset(key for key in self._selection.pieces if key in placed and placed[key].wall == self.wall)

    def choosable(self) -> frozenset[Key]:
        """The selected pieces of the wall and of the floor."""
        placed = self._opened.project.placement_by_piece
        return frozenset(key for key in self._selection.pieces if key not in placed or placed[key].wall == self.wall)

    def only_selected(self) -> None:
        """Only the selected pieces are arranged; others of the wall stay, others of the floor lie."""
        self.only = self.choosable() or None
        self._rested()

    def keep(self, keep: bool) -> None:
        """The selected pieces stay where they are, or all are arranged again."""
        self.kept = self.kept | self.selected() if keep else frozenset()
        if not keep:
            self.only = None
        self._rested()

    def _length(self, steps: int) -> Length:
        imperial = self._opened.project.units == "imperial"
        return Length.of_mm(steps * MM_PER_INCH / 8, "in") if imperial else Length.of_mm(steps, "mm")

    def gap(self, steps: int, gesture: int) -> None:
        """Another gap: what hangs is solved anew for it."""
        gap = self._length(steps)
        merge = MergeKey("gap", (self._opened.project.current_arrangement,), gesture)
        self.note = try_apply(self._opened, keeping(set_gap(gap, merge), merge=merge))
        if self.note:
            # The gap is what the person wants, even where what hangs cannot follow.
            try_apply(self._opened, set_gap(gap, merge))
        self._changed()

    def width(self, steps: int) -> None:
        """Another width of the group."""
        self.width_mm = float(self._length(steps).mm)
        self._changed()

    def above(self, steps: int, gesture: int) -> None:
        """Another height above the furniture, for what hangs and for what is looked for."""
        self.above_mm = float(self._length(steps).mm)
        if any(one.wall == self.wall for one in self._opened.project.placement_by_piece.values()):
            merge = MergeKey("above", (self.wall,), gesture)
            self.note = try_apply(self._opened, shift_group(self.wall, above_mm=self.above_mm, merge=merge))
        self._changed()

    def as_usual(self, what: str) -> None:
        """Width or height as the furniture and the wall suggest."""
        if what == "width":
            self.width_mm = None
        else:
            self.above_mm = None
        self._rested()
