"""What the actions of the menu “Wall” do: walls, and what stands on or before them."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

import msgspec

from composer.editing.edits import Edit, EditRefused
from composer.model import Key, Obstacle, Project, position
from composer.texts import say, say_many

if TYPE_CHECKING:
    from composer.desktop.main_window import MainWindow

BESIDE_MM = 100.0
"""A copy of an obstacle stands so far to the right of it."""


class WallCommands:
    """One method for each action, by the action's name."""

    def __init__(self, window: MainWindow) -> None:
        self._window = window
        self._opened = window.opened

    def _apply(self, edit: Edit) -> bool:
        try:
            return self._opened.apply(edit)
        except EditRefused as refused:
            self._window.say_hint(str(refused))
            return False

    def add_wall(self) -> None:
        """One more wall, as large as the one shown, and shows it."""
        from composer.editing.wall_edits import add_wall

        project, shown = self._opened.project, self._window.room.wall
        if shown is None:
            return
        names = {wall.name for wall in project.walls}
        count = len(project.walls) + 1
        while (name := say("Wall {number}", number=count)) in names:
            count += 1
        if self._apply(add_wall(name, shown.width, shown.height)):
            self._window.show_wall(self._opened.project.walls[-1].key)
            self._window.card.refresh()

    def delete_wall(self) -> None:
        """The wall shown; its pieces go to the floor. Undo brings it back."""
        from composer.editing.wall_edits import delete_wall

        self._apply(delete_wall(self._opened.project, self._window.room.wall_key))

    def next_wall(self) -> None:
        """The next one of the project's walls."""
        self._step(1)

    def previous_wall(self) -> None:
        """The one before."""
        self._step(-1)

    def _step(self, by: int) -> None:
        keys = [wall.key for wall in self._opened.project.walls]
        if len(keys) < 2:
            self._window.say_hint(say("There is only one wall. Add another one in the menu Wall."))
            return
        self._window.show_wall(keys[(keys.index(self._window.room.wall_key) + by) % len(keys)])

    def hang_on(self, wall: Key) -> None:
        """The selected pieces on another wall: at the place they have, from the floor on its eye line."""
        from composer.desktop.room.put import put_pieces

        project, chosen = self._opened.project, self._window.selection.pieces
        hung, record = project.placement_by_piece, project.wall_by_key[wall]
        spots, left = {}, BESIDE_MM
        for key in chosen:
            piece = project.piece_by_key[key]
            placement = hung.get(key)
            if placement is not None:
                spots[key] = (placement.left, placement.bottom)
                continue
            width, height = piece.size_mm()
            spots[key] = (left, max(0.0, float(project.eye_line(record).mm) - height / 2))
            left += width + float(project.arrangement.gap.mm)
        edit = put_pieces(project, wall, spots)
        if self._apply(edit):
            self._window.show_wall(wall)
            self._window.selection.set(chosen)

    def add_obstacle(self, kind: str, at: tuple[float, float] | None = None) -> None:
        """An obstacle of a kind, selected, to be put where it stands and sized: by its handles or in the card.

        Args:
            kind: see :class:`composer.model.Obstacle`.
            at: its middle on the wall, mm; None = the middle of the wall at a usual height.
        """
        from composer.editing.wall_edits import add_obstacles

        project, key = self._opened.project, self._window.room.wall_key
        if self._apply(add_obstacles(project, key, [lambda own: new_obstacle(project, key, kind, own, at)])):
            made = self._opened.project.wall_by_key[key].obstacles[-1].key
            self._window.view.setFocus()
            self._window.view.tool.go_to(made)

    def delete_things(self, pieces: Sequence[Key], obstacles: Sequence[Key]) -> None:
        """Pieces and obstacles out of the project, as one step."""
        from composer.editing import piece_edits
        from composer.editing.wall_edits import delete_obstacle

        project = self._opened.project
        edits = [piece_edits.delete(project, pieces)] if pieces else []
        edits += [delete_obstacle(project, key) for key in obstacles]
        if edits:
            text = (
                edits[0].text
                if len(edits) == 1
                else say_many("Delete {count} thing", "Delete {count} things", len(pieces) + len(obstacles))
            )
            self._apply(Edit(text, lambda now: _one_after_another(now, edits)))

    def duplicate_obstacles(self, obstacles: Sequence[Key]) -> None:
        """A copy of each beside it."""
        from composer.editing.wall_edits import add_obstacles

        project = self._opened.project
        records = [record for key in obstacles if (record := project.obstacle_by_key.get(key)) is not None]

        def copy(record: Obstacle, key: Key) -> Obstacle:
            left = position(record.left + float(record.width.mm) + BESIDE_MM)
            return msgspec.structs.replace(record, key=key, left=left)

        makers = [lambda key, record=record: copy(record, key) for record in records]
        if self._apply(add_obstacles(project, self._window.room.wall_key, makers)):
            made = self._opened.project.wall_by_key[self._window.room.wall_key].obstacles[-len(records) :]
            self._window.selection.set(obstacle.key for obstacle in made)


def new_obstacle(project: Project, wall: Key, kind: str, key: Key, at: tuple[float, float] | None) -> Obstacle:
    """An obstacle of a usual size, with its middle at a place of the wall but never below the floor."""
    from composer.desktop.cards.obstacle_list import usual_size

    width, height = usual_size(kind, project.units)
    record = project.wall_by_key[wall]
    on_floor = kind in {"sofa", "bed", "cot", "seat", "table", "door"}
    x = float(record.width.mm) / 2 if at is None else at[0]
    y = {"socket": 300.0, "radiator": 450.0}.get(kind, 1200.0) if at is None else at[1]
    bottom = 0.0 if on_floor else max(0.0, y - float(height.mm) / 2)
    return Obstacle(
        key=key,
        kind=kind,  # type: ignore[arg-type] # checked when the record is made
        left=position(max(0.0, round(x - float(width.mm) / 2))),
        bottom=position(round(bottom)),
        width=width,
        height=height,
    )


def _one_after_another(project: Project, edits: Sequence[Edit]) -> Project:
    for edit in edits:
        project = edit.run(project)
    return project
