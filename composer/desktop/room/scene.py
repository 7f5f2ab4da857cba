"""The scene: items as mirrors of the records of one wall and its floor. Items never hold truth."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from PySide6.QtCore import QObject, QPointF, QRectF
from PySide6.QtGui import QPixmap
from PySide6.QtWidgets import QGraphicsScene

from composer.catalogue import catalogue as catalogues
from composer.desktop.open_project import Change, OpenProject, existing
from composer.desktop.room.cable_bands import CableBands
from composer.desktop.room.chalk import ChalkMarks
from composer.desktop.room.coordinates import FLOOR_GAP_MM, FLOOR_PADDING_MM, lay_out_floor, rect_to_scene
from composer.desktop.room.distances import Distances
from composer.desktop.room.obstacle_item import Handle, ObstacleItem
from composer.desktop.room.overlaps import Z_OVERLAP_AT_REST, Z_OVERLAP_IN_HAND, Overlaps, overlapping
from composer.desktop.room.piece_item import PieceItem
from composer.desktop.room.wall_items import GroundItem, LineItem, TraceItem, floor_words
from composer.desktop.selection import Selection
from composer.desktop.theme import theme
from composer.desktop.units_shown import number
from composer.geometry.nosing import ground_line, upright_span
from composer.geometry.rectangle import Rectangle
from composer.model import Finding, Key, Obstacle, Project, Wall
from composer.texts import say

TRACES = 12
"""So many dashed outlines show where pieces in hand lay; beyond that they would only be noise."""


class RoomScene(QGraphicsScene):
    """One wall with its pieces, obstacles and floor."""

    def __init__(self, opened: OpenProject, selection: Selection, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self.opened = opened
        self.selection = selection
        self.wall_key: Key = opened.shown.walls[0].key
        self.floor_depth = 300.0
        self.picture_of: Callable[[Key], QPixmap | None] = _no_picture
        self.items_by_key: dict[Key, PieceItem] = {}
        self.obstacles_by_key: dict[Key, ObstacleItem] = {}
        self.floor_places: dict[Key, Rectangle] = {}
        self.focus_key: Key | None = None
        self.findings_now: Callable[[], Iterable[Finding]] = tuple
        """Gives the findings; for what readers are told."""
        self._focus_shown = False
        self._scale = 0.2
        self._levels: dict[Key, str] = {}
        self._ground = GroundItem()
        self._eye = LineItem((14, 4, 2, 4), 75)
        self._middle = LineItem((2, 4), 60)
        self._nosing = LineItem((6, 4), 100)
        self._lines = (self._eye, self._middle, self._nosing)
        for item in (self._ground, *self._lines):
            self.addItem(item)
        self.cables = CableBands(self, self._lines)
        self.chalk = ChalkMarks(self)
        self.distances = Distances(self)
        self.overlaps = Overlaps(self, Z_OVERLAP_AT_REST)
        self.overlaps_in_hand = Overlaps(self, Z_OVERLAP_IN_HAND)
        self.traces = [TraceItem() for _ in range(TRACES)]
        self.draft = TraceItem(token="accent")
        for trace in (*self.traces, self.draft):
            self.addItem(trace)
        selection.changed.connect(self._on_selection)
        theme().changed.connect(self._on_theme)
        self.show_project(opened.shown)

    @property
    def project(self) -> Project:
        """What is shown."""
        return self.opened.shown

    @property
    def wall(self) -> Wall | None:
        """The wall shown."""
        return self.project.wall_by_key.get(self.wall_key)

    @property
    def gap_mm(self) -> float:
        """The gap wanted between neighbouring frames."""
        return float(self.project.arrangement.gap.mm)

    @property
    def extent(self) -> QRectF:
        """Wall and floor, scene mm."""
        wall = self.wall
        if wall is None:
            return QRectF(0, 0, 1000, 1000)
        return QRectF(0, -wall.height.mm, wall.width.mm, wall.height.mm + self.floor_depth)

    def show_wall(self, key: Key) -> None:
        """Shows another wall."""
        if key != self.wall_key:
            self.wall_key = key
            self.selection.clear()
            self.show_project(self.project)

    def on_change(self, before: Project, after: Project, change: Change) -> None:
        """Brings the items of what changed up to date."""
        if self.wall_key not in after.wall_by_key:
            self.wall_key = after.walls[0].key
            self.show_project(after)
            return
        if change.arrangement or change.walls or change.fields or change.pieces.added or change.pieces.removed:
            self.show_project(after)
            return
        if change.placements.added or change.placements.removed or change.pieces.changed:
            self._lay_floor(after)
            if (wall := self.wall) is not None:
                self._show_ground(after, wall)
        moved = change.pieces.changed | change.placements.keys
        if change.placements.keys and (wall := self.wall) is not None:
            self.cables.show_wall(after, wall)
        self._show_pieces(after, moved if not self._floor_moved else set(after.piece_by_key))
        self._show_overlaps()

    def show_project(self, project: Project) -> None:
        """Makes every item anew where needed."""
        wall = self.wall
        if wall is None:
            return
        self._lay_floor(project)
        self._show_ground(project, wall)
        style = project.length_style
        eye = project.eye_line(wall)
        width = float(wall.width.mm)
        ground = ground_line(wall.nosing, width)
        within = wall.corners if wall.outline is not None else ()
        height = number(eye.mm, style)
        self._eye.show_line(
            [(x, y + eye.mm) for x, y in ground],
            say("eye line {height}", height=height)
            if wall.nosing is None
            else say("eye line, {height} above the nosing", height=height),
            within,
        )
        span = upright_span(wall.corners, width / 2) or (0.0, float(wall.height.mm))
        self._middle.show_line([(width / 2, span[1]), (width / 2, span[0])], say("wall middle"))
        self._nosing.show_line(wall.nosing or (), say("nosing line"), within)
        self.cables.show_wall(project, wall)
        self._show_obstacles(project, wall)
        self._show_pieces(project, {*project.piece_by_key, *self.items_by_key})
        self._show_overlaps()
        self._on_selection()

    def set_floor_shown(self, depth_mm: float) -> None:
        """So much floor is in view below the wall, mm."""
        self._ground.set_floor_shown(depth_mm)

    def set_scale_px(self, px_per_mm: float) -> None:
        """The view's scale, for what is drawn in pixels."""
        self._scale = px_per_mm
        for item in self.items_by_key.values():
            item.set_scale_px(px_per_mm)
        for obstacle in self.obstacles_by_key.values():
            obstacle.set_scale_px(px_per_mm)
        for line in self._lines:
            line.set_scale_px(px_per_mm)

    def set_levels(self, levels: dict[Key, str]) -> None:
        """The most serious finding of each piece."""
        self._levels = levels
        for key, item in self.items_by_key.items():
            item.set_level(levels.get(key))

    def sentences_of(self, key: Key) -> list[str]:
        """What was found about a piece, the level in a word first."""
        from composer.findings import sentences

        piece, style = self.project.piece_by_key.get(key), self.project.length_style
        words = {"stop": say("Stop"), "warn": say("Warn"), "note": say("Note")}
        return [
            say("{level}: {sentence}", level=words[finding.level], sentence=sentences.text(finding, style))
            for finding in self.findings_now()
            if piece is not None and piece.number in finding.pieces
        ]

    def set_focus(self, key: Key | None) -> None:
        """Where the keyboard is."""
        self.focus_key = key
        self._on_selection()

    def set_focus_shown(self, *, shown: bool) -> None:
        """Whether to show where the keyboard is."""
        self._focus_shown = shown
        if shown and self.focus_key is None and self.selection.keys:
            self.focus_key = self.selection.keys[0]
        self._on_selection()

    @property
    def order(self) -> list[Key]:
        """What Tab goes through: pieces by number, then obstacles from the left."""
        things = sorted(self.obstacles_by_key.values(), key=lambda item: (item.box.left, item.key))
        return [*existing(self.items_by_key, self.project), *(item.key for item in things)]

    def show_pictures(self, keys: Iterable[Key]) -> None:
        """Pieces whose picture is there now, or no longer."""
        for key in keys:
            if (item := self.items_by_key.get(key)) is not None:
                item.set_picture(self.picture_of(key))

    def piece_at(self, point: object) -> PieceItem | None:
        """The uppermost piece under a point of the scene."""
        for item in self.items(point):  # type: ignore[call-overload]
            if isinstance(item, PieceItem):
                return item
        return None

    def obstacle_at(self, point: object) -> ObstacleItem | None:
        """The uppermost obstacle under a point of the scene."""
        for item in self.items(point):  # type: ignore[call-overload]
            if isinstance(item, ObstacleItem):
                return item
        return None

    def handle_at(self, point: QPointF) -> tuple[Key, Handle] | None:
        """The handle of a selected obstacle under a point of the scene."""
        for key in self.selection.obstacles:
            item = self.obstacles_by_key.get(key)
            if item is not None and (handle := item.handle_at(point)) is not None:
                return key, handle
        return None

    def point_to(self, key: Key) -> None:
        """Shows which obstacle a row of the card is about; empty = none."""
        for other, item in self.obstacles_by_key.items():
            item.set_pointed(other == key)

    def place_back(self, keys: Iterable[Key]) -> None:
        """Items read their records again."""
        wall = self.wall
        if wall is not None:
            self._show_obstacles(self.project, wall)
        self._show_pieces(self.project, keys)
        self._show_overlaps()

    def _lay_floor(self, project: Project) -> None:
        wall = self.wall
        if wall is None:
            return
        plan = lay_out_floor(project, wall.width.mm)
        self._floor_moved = plan.places != self.floor_places
        self.floor_places = plan.places
        self.floor_depth = plan.depth

    _floor_moved = False

    def _show_ground(self, project: Project, wall: Wall) -> None:
        hung = len(project.placement_by_piece)
        self._ground.show_record(wall, floor_words(lying=len(project.pieces) - hung, hung=hung))

    def _show_overlaps(self) -> None:
        self.overlaps.show(overlapping([item.box for item in self.items_by_key.values() if item.hung]))

    def _show_pieces(self, project: Project, keys: Iterable[Key]) -> None:
        up = project.up()
        shown = project.placement_by_piece
        for key in keys:
            piece = project.piece_by_key.get(key)
            placement = shown.get(key)
            elsewhere = placement is not None and placement.wall != self.wall_key
            if piece is None or elsewhere:
                self._drop(key)
                continue
            item = self.items_by_key.get(key)
            if item is None:
                item = PieceItem(piece)
                item.set_scale_px(self._scale)
                item.set_level(self._levels.get(key))
                if (picture := self.picture_of(key)) is not None:
                    item.set_picture(picture)
                self.items_by_key[key] = item
                self.addItem(item)
            turned = placement is not None and placement.turned
            if placement is not None:
                box = Rectangle.at(placement.left, placement.bottom, *piece.size_mm(turned=turned))
            else:
                box = self.floor_places[key]
            item.show_record(
                piece,
                box,
                hung=placement is not None,
                turned=turned,
                locked=placement is not None and placement.locked,
                up=key in up,
            )
        for key in [key for key in self.items_by_key if key not in project.piece_by_key]:
            self._drop(key)

    def _drop(self, key: Key) -> None:
        item = self.items_by_key.pop(key, None)
        if item is not None:
            self.removeItem(item)

    def _show_obstacles(self, project: Project, wall: Wall) -> None:
        known = catalogues.of(project.catalogue)
        wanted = {obstacle.key: obstacle for obstacle in wall.obstacles}
        for key in [key for key in self.obstacles_by_key if key not in wanted]:
            self.removeItem(self.obstacles_by_key.pop(key))
        for key, obstacle in wanted.items():
            item = self.obstacles_by_key.get(key)
            if item is None:
                item = ObstacleItem(obstacle)
                item.set_scale_px(self._scale)
                self.obstacles_by_key[key] = item
                self.addItem(item)
            item.show_record(
                obstacle, margin_of(obstacle, known), float(wall.width.mm), before=stands_before(obstacle, known)
            )

    def _on_selection(self) -> None:
        for key, item in self.items_by_key.items():
            item.set_state(chosen=key in self.selection, focused=self._focus_shown and key == self.focus_key)
        for key, obstacle in self.obstacles_by_key.items():
            obstacle.set_state(chosen=key in self.selection, focused=self._focus_shown and key == self.focus_key)

    def _on_theme(self) -> None:
        for item in self.items_by_key.values():
            item.on_theme()
        for line in self._lines:
            line.on_theme()
        self.show_project(self.project)
        self.update()

    def show_traces(self, boxes: Iterable[tuple[Rectangle, str]]) -> None:
        """Dashed outlines where pieces in hand lay, each with its name."""
        for trace, (box, words) in zip(self.traces, boxes, strict=False):
            trace.show_box(box, words)

    def hide_traces(self) -> None:
        """Nothing is in hand."""
        for trace in self.traces:
            trace.hide()

    def show_draft(self, size: object) -> None:
        """The outline of a frame that is being typed, on the floor; None = none."""
        if not (isinstance(size, tuple) and len(size) == 2 and min(size) > 0):
            self.draft.hide()
            return
        right = max((box.right for box in self.floor_places.values()), default=0.0) + FLOOR_GAP_MM
        self.draft.show_box(Rectangle(right, -FLOOR_PADDING_MM - size[1], right + size[0], -FLOOR_PADDING_MM))

    def selection_box(self) -> Rectangle | None:
        """The box around what is selected, as drawn now, mm."""
        box: Rectangle | None = None
        for key in self.selection.keys:
            item = self.items_by_key.get(key) or self.obstacles_by_key.get(key)
            if item is not None:
                box = item.box if box is None else box.united(item.box)
        return box

    def box_in_scene(self, keys: Iterable[Key]) -> QRectF:
        """The box around pieces and obstacles, scene mm; empty when none of them is shown."""
        whole = QRectF()
        for key in keys:
            item = self.items_by_key.get(key) or self.obstacles_by_key.get(key)
            if item is not None:
                whole = whole.united(rect_to_scene(item.box))
        return whole


def margin_of(obstacle: Obstacle, known: catalogues.Catalogue) -> float:
    """What is kept free around an obstacle, mm: its own margin, else the usual one of its kind."""
    if obstacle.margin is not None:
        return float(obstacle.margin.mm)
    return float(known.margin_mm(obstacle.kind))


def stands_before(obstacle: Obstacle, known: catalogues.Catalogue) -> bool:
    """Whether it is furniture, in front of wall and pieces, rather than part of the wall."""
    record = known.obstacles.get(obstacle.kind)
    return record is not None and record.stands == "before"


def _no_picture(_: Key) -> QPixmap | None:
    return None
