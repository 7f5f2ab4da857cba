"""Centre-out growth: the biggest frame at the focus, each next one a gap from one already there.

A place is a candidate when the frame is exactly one gap from a frame (or touches a kept-free margin) in
one direction and is settled in the other too, by a second gap, a shared edge or centre line, or a margin.
For every side of every hung frame, what blocks that side is asked for as intervals; so only free places
are ever looked at, and their number grows with the outline of the group, not with its area.

Scores are sums, products and square roots only, rounded before they are compared, so that every machine
makes the same choice.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from math import fsum
from typing import NamedTuple

from composer.arranging.measures import EXACT_MM, LOOSE, NEAR_MISS_MM, UNEASY
from composer.arranging.room import TOUCHING_MM, Interval, Room, apart, free_intervals, near_values
from composer.arranging.task import Layout, Size, Task
from composer.geometry.rectangle import Rectangle

FACE_LEAST_MM = 25.0
"""Less than this in line, and two frames are not neighbours but touch by chance."""

SHORTLIST = 64
RASTER_MM = 20.0

Box = tuple[float, float, float, float]
"""Left, bottom, right, top, mm: a plain tuple, as these are made by the thousand."""


@dataclass(frozen=True, slots=True)
class Shape:
    """What outline the group grows towards.

    Attributes:
        focus: its middle, mm.
        aspect: wanted width ÷ height.
        round_: an oval instead of a soft rectangle.
        contact: what a fully tied-in side is worth against nearness to the middle.
    """

    focus: tuple[float, float]
    aspect: float = 1.5
    round_: bool = False
    contact: float = 0.35


class Place(NamedTuple):
    """A candidate with its score; the lower, the better."""

    score: float
    box: Box


@dataclass
class Growing:
    """A group under way: what hangs so far, and what it would cost to hang a frame somewhere.

    Attributes:
        room: the wall.
        gap: wanted between frames, mm.
        shape: of the group.
        radius: half the side of a square of all frames' grown area, mm.
        boxes: what hangs so far.
        zone: the part of the wall frames may take; None = all of it.
        strangers: frames of other groups: kept away from, never leant on.
    """

    room: Room
    gap: float
    shape: Shape
    radius: float
    boxes: list[Box] = field(default_factory=list)
    zone: Box | None = None
    strangers: Sequence[Box] = ()
    _weighed: tuple[float, float, float] = field(default=(0.0, 0.0, 0.0), init=False)

    def best(self, width: float, height: float, *, corners: bool = False, rank: int = 0) -> Box | None:
        """The best place for one more frame, or None when there is none.

        ``corners`` also tries places settled by margins and places diagonal to a frame, which face nobody.
        ``rank`` 1 takes the second best and so on, the last where there are fewer.
        """
        reach = self._reach
        self._weighed = self._weigh()
        near = sorted({(reach(box), box) for box in self._sides(width, height)})
        if corners or not near:
            near = sorted({*near, *((reach(box), box) for box in self._corners(width, height))})
        places: list[Place] = []
        for away, box in near:
            if not self.room.free(*box) or not self._in_zone(box):
                continue
            places.append(Place(round(away + self._cost(box), 9), box))
            if len(places) >= SHORTLIST:
                break
        if not places:
            return None
        return min(places).box if rank == 0 else sorted(places)[min(rank, len(places) - 1)].box

    def first(self, width: float, height: float) -> Box | None:
        """The free place nearest to the focus for a frame with nobody to lean on."""
        x, y = self.shape.focus
        room, zone = self.room.bounds, self.zone or (-math.inf, -math.inf, math.inf, math.inf)
        low, high = max(room.left, zone[0]), min(room.right, zone[2]) - width
        floor, ceiling = max(room.bottom, zone[1]), min(room.top, zone[3]) - height
        if low > high + TOUCHING_MM or floor > ceiling + TOUCHING_MM:
            return None
        wanted = min(max(x - width / 2, low), high), min(max(y - height / 2, floor), ceiling)
        lefts = {wanted[0], low, high}
        steps = int((high - low) / RASTER_MM)
        lefts.update(wanted[0] + RASTER_MM * step for step in range(-steps, steps + 1))
        for out in self.room.keep_outs:
            lefts.update((out.right, out.left - width))
        best: tuple[float, float, Box] | None = None
        for left in sorted(
            (at for at in lefts if low - TOUCHING_MM <= at <= high + TOUCHING_MM),
            key=lambda at: (round(abs(at - wanted[0]), 6), at),
        ):
            aside = abs(left - wanted[0])
            if best is not None and aside >= best[0]:
                break
            blocked = self._blocked_up(left, left + width, height, (*self.boxes, *self.strangers), self.gap)
            for start, end in free_intervals(blocked, floor, ceiling):
                bottom = min(max(wanted[1], start), end)
                away = round(aside + abs(bottom - wanted[1]), 6)
                box = (left, bottom, left + width, bottom + height)
                if (best is None or (away, left) < best[:2]) and self.room.free(*box):
                    best = (away, left, box)
        return None if best is None else best[2]

    def _in_zone(self, box: Box) -> bool:
        zone = self.zone
        return zone is None or (
            box[0] >= zone[0] - TOUCHING_MM
            and box[1] >= zone[1] - TOUCHING_MM
            and box[2] <= zone[2] + TOUCHING_MM
            and box[3] <= zone[3] + TOUCHING_MM
        )

    def _reach(self, box: Box) -> float:
        """How far out the frame's far corner lies, 1 = where the whole group should end."""
        (x, y), aspect = self.shape.focus, self.shape.aspect
        across = abs((box[0] + box[2]) / 2 - x) + (box[2] - box[0]) / 2
        up = abs((box[1] + box[3]) / 2 - y) + (box[3] - box[1]) / 2
        across, up = across * across / aspect, up * up * aspect
        far = math.sqrt(across + up) if self.shape.round_ else math.sqrt(math.sqrt(across * across + up * up))
        return round(far / self.radius, 9)

    def _sides(self, width: float, height: float) -> Iterator[Box]:
        """Places one gap from a frame's side, settled along that side too."""
        gap, everybody = self.gap, (*self.boxes, *self.strangers)
        for box in self.boxes:
            left, bottom, right, top = box
            for at in (right + gap, left - gap - width):
                low, high = bottom - height + FACE_LEAST_MM, top - FACE_LEAST_MM
                blocked = self._blocked_up(at, at + width, height, everybody, gap)
                for start, end in free_intervals(blocked, low, high):
                    for y in self._settled(start, end, low, high, height, at, at + width, 0):
                        yield (at, y, at + width, y + height)
            for at in (top + gap, bottom - gap - height):
                low, high = left - width + FACE_LEAST_MM, right - FACE_LEAST_MM
                blocked = self._blocked_across(at, at + height, width, everybody, gap)
                for start, end in free_intervals(blocked, low, high):
                    for x in self._settled(start, end, low, high, width, at, at + height, 1):
                        yield (x, at, x + width, at + height)

    def _settled(
        self, start: float, end: float, low: float, high: float, size: float, near: float, far: float, axis: int
    ) -> Iterator[float]:
        """Places in a free interval where an edge or the centre lines up with a near frame, or where it ends.

        ``axis`` 0: the frame moves up and down beside a frame; 1: to the sides above or below one.
        """
        if start > low:
            yield start
        if start < end < high:
            yield end
        reach = 2 * self.gap
        side_low, side_high, line_low, line_high = (0, 2, 1, 3) if axis == 0 else (1, 3, 0, 2)
        for other in self.boxes:
            if other[side_low] - far > reach or near - other[side_high] > reach:
                continue
            low_line, high_line = other[line_low], other[line_high]
            if low_line > end + size + reach or high_line < start - reach:
                continue
            for at in (low_line, high_line - size, (low_line + high_line - size) / 2):
                if start <= at <= end:
                    yield at

    def _corners(self, width: float, height: float) -> Iterator[Box]:
        """Places settled by margins or diagonal to a frame."""
        gap, everybody = self.gap, (*self.boxes, *self.strangers)
        lefts: set[float] = set()
        bottoms: set[float] = set()
        for box in self.boxes:
            lefts.update((box[2] + gap, box[0] - gap - width, box[0], box[2] - width))
            bottoms.update((box[3] + gap, box[1] - gap - height, box[1], box[3] - height))
        for out in self.room.keep_outs:
            lefts.update((out.right, out.left - width))
            bottoms.update((out.top, out.bottom - height))
        bounds = self.room.bounds
        lefts.update((bounds.left, bounds.right - width))
        bottoms.update((bounds.bottom, bounds.top - height))
        floors = sorted(bottoms)
        for left in sorted(lefts):
            blocked = self._blocked_up(left, left + width, height, everybody, gap)
            for start, end in free_intervals(blocked, bounds.bottom, bounds.top - height):
                yield (left, start, left + width, start + height)
                if end > start:
                    yield (left, end, left + width, end + height)
                for bottom in near_values(floors, start, end):
                    yield (left, bottom, left + width, bottom + height)

    def _blocked_up(
        self, left: float, right: float, height: float, others: Sequence[Box], gap: float
    ) -> list[Interval]:
        found = self.room.blocked("y", left, right, height)
        low, high, reach = left - gap + TOUCHING_MM, right + gap - TOUCHING_MM, height + gap
        found += [(other[1] - reach, other[3] + gap) for other in others if other[2] > low and other[0] < high]
        return found

    def _blocked_across(
        self, bottom: float, top: float, width: float, others: Sequence[Box], gap: float
    ) -> list[Interval]:
        found = self.room.blocked("x", bottom, top, width)
        low, high, reach = bottom - gap + TOUCHING_MM, top + gap - TOUCHING_MM, width + gap
        found += [(other[0] - reach, other[2] + gap) for other in others if other[3] > low and other[1] < high]
        return found

    def _cost(self, box: Box) -> float:
        """What speaks against the place beside its reach; negative when more speaks for it."""
        left, bottom, right, top = box
        gap = self.gap
        exact, uneasy_end, open_end, near = EXACT_MM, UNEASY * gap, LOOSE * gap, 2 * gap
        contact, uneasy, misses = 0.0, 0, 0
        lines = [0, 0]
        for other_left, other_bottom, other_right, other_top in self.boxes:
            across = max(other_left - right, left - other_right)
            up = max(other_bottom - top, bottom - other_top)
            away = across if across > up else up
            if away > open_end:
                continue
            if up <= -20.0 or across <= -20.0:
                if away - gap <= exact:
                    contact -= min(across, up)
                elif away < uneasy_end:
                    uneasy += 1
            if away > near + exact:
                continue
            if across > up:
                offs = (other_bottom - bottom, other_top - top)
                which = 1
            else:
                offs = (other_left - left, other_right - right)
                which = 0
            for off in offs:
                if -exact <= off <= exact:
                    lines[which] += 1
                elif -NEAR_MISS_MM < off < NEAR_MISS_MM:
                    misses += 1
        perimeter = 2 * (right - left + top - bottom)
        return (
            0.08 * uneasy
            + 0.05 * misses
            - self.shape.contact * contact / perimeter * 2
            - 0.05 * (min(2, lines[0]) + min(2, lines[1]))
            + 0.15 * self._off_balance(box)
        )

    def _off_balance(self, box: Box) -> float:
        area, moment_x, moment_y = self._weighed
        x, y = self.shape.focus
        one = (box[2] - box[0]) * (box[3] - box[1])
        moment_x += one * ((box[0] + box[2]) / 2 - x)
        moment_y += one * ((box[1] + box[3]) / 2 - y)
        return math.sqrt(moment_x * moment_x + moment_y * moment_y) / ((area + one) * self.radius)

    def _weigh(self) -> tuple[float, float, float]:
        """Area of what hangs, and its moments about the focus."""
        x, y = self.shape.focus
        area = moment_x = moment_y = 0.0
        for left, bottom, right, top in self.boxes:
            one = (right - left) * (top - bottom)
            area += one
            moment_x += one * ((left + right) / 2 - x)
            moment_y += one * ((bottom + top) / 2 - y)
        return area, moment_x, moment_y


def plain(box: Rectangle) -> Box:
    """A rectangle as a plain tuple."""
    return (box.left, box.bottom, box.right, box.top)


def radius_of(task: Task) -> float:
    """Half the side of a square of the area of all frames with their gaps, those that stay included, mm."""
    area = task.grown_area + fsum((box.width + task.gap) * (box.height + task.gap) for box in task.still_boxes)
    return math.sqrt(area) / 2


def grow(task: Task, order: Sequence[int], shape: Shape, *, corners: bool = False) -> Layout | None:
    """A whole group, hung in that order (indices into the task's sizes), or None when one finds no place."""
    growing = Growing(task.room, task.gap, shape, radius_of(task), [plain(box) for box in task.still_boxes])
    placed: dict[int, Box] = {}
    for index in order:
        size = task.sizes[index]
        box = place_one(growing, size, corners=corners)
        if box is None:
            return None
        growing.boxes.append(box)
        placed[index] = box
    return tuple(Rectangle(*placed[index]) for index in range(len(task.sizes)))


def place_one(growing: Growing, size: Size, *, corners: bool = False, rank: int = 0) -> Box | None:
    """Where the next frame goes; the first one goes to the focus. ``rank`` as in :meth:`Growing.best`."""
    if not growing.boxes:
        return growing.first(size.width, size.height)
    return growing.best(size.width, size.height, corners=corners, rank=rank) or growing.first(size.width, size.height)


def collides(box: Sequence[float], others: Sequence[Sequence[float]], gap: float) -> bool:
    """Whether the frame is nearer than a gap to one of the others."""
    return any(not apart(box, other, gap) for other in others)
