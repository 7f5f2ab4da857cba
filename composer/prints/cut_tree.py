"""A sheet being cut: each cut divides the part in hand in two; at the end it is read off as a list of cuts."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from composer.geometry.rectangle import Rectangle

SAME_MM = 1e-6

Edge = Literal["left", "bottom"]


@dataclass(frozen=True, slots=True)
class Blank:
    """A rectangle to be cut: width and height as it will hang, mm, and what it is called."""

    label: str
    width_mm: float
    height_mm: float


@dataclass(frozen=True, slots=True)
class Placed:
    """A blank on its sheet; ``turned`` = its top points left."""

    blank: Blank
    place: Rectangle
    turned: bool


@dataclass(frozen=True, slots=True)
class CutLine:
    """One cut, right through the part in hand.

    Attributes:
        number: its place in the order, from 1 on each sheet.
        part: what is cut, on the sheet, mm.
        edge: from which edge of the part it is measured: a cut from the left is upright.
        mark_mm: distance from that edge.
        check_mm: distance from the far edge; both make the part.
        gives: labels of the blanks that are finished by it.
    """

    number: int
    part: Rectangle
    edge: Edge
    mark_mm: float
    check_mm: float
    gives: tuple[str, ...]

    @property
    def ends(self) -> tuple[tuple[float, float], tuple[float, float]]:
        """Both ends on the sheet, mm."""
        if self.edge == "left":
            x = self.part.left + self.mark_mm
            return (x, self.part.bottom), (x, self.part.top)
        y = self.part.bottom + self.mark_mm
        return (self.part.left, y), (self.part.right, y)


@dataclass(frozen=True, slots=True)
class CutSheet:
    """One sheet: what is cut from it, in which order, and what is left over."""

    width_mm: float
    height_mm: float
    placed: tuple[Placed, ...]
    cuts: tuple[CutLine, ...]
    left_over: tuple[Rectangle, ...]

    @property
    def used(self) -> float:
        """Share of the sheet that becomes blanks, 0…1."""
        area = sum(one.place.width * one.place.height for one in self.placed)
        return area / (self.width_mm * self.height_mm)


@dataclass(slots=True, eq=False)
class Node:
    """A part in the making: cut in two, holding a blank, or free."""

    rect: Rectangle
    holds: Placed | None = None
    edge: Edge | None = None
    first: "Node | None" = None
    second: "Node | None" = None

    def cut(self, edge: Edge, at: float) -> "tuple[Node, Node | None]":
        """Divides the part; where nothing would be left on the far side there is no cut."""
        left, bottom, right, top = self.rect
        size = self.rect.width if edge == "left" else self.rect.height
        if at >= size - SAME_MM:
            return self, None
        if edge == "left":
            one, other = Rectangle(left, bottom, left + at, top), Rectangle(left + at, bottom, right, top)
        else:
            one, other = Rectangle(left, bottom, right, bottom + at), Rectangle(left, bottom + at, right, top)
        self.edge, self.first, self.second = edge, Node(one), Node(other)
        return self.first, self.second

    def leaves(self) -> "Iterator[Node]":
        """The parts that are not cut any further."""
        if self.first is None or self.second is None:
            yield self
        else:
            yield from self.first.leaves()
            yield from self.second.leaves()


def take(node: Node, blank: Blank, turned: bool, split: str) -> list[Node]:
    """Puts the blank into the part's lower left corner; the free parts left come back."""
    width, height = (blank.height_mm, blank.width_mm) if turned else (blank.width_mm, blank.height_mm)
    across, up = node.rect.width - width, node.rect.height - height
    upright = {
        "shorter-rest": across >= up,
        "longer-rest": across < up,
        "upright": True,
        "across": False,
    }[split]
    cuts: list[tuple[Edge, float]] = [("left", width), ("bottom", height)]
    rest: list[Node] = []
    for edge, at in cuts if upright else cuts[::-1]:
        node, other = node.cut(edge, at)
        if other is not None:
            rest.append(other)
    node.holds = Placed(blank, Rectangle.at(node.rect.left, node.rect.bottom, width, height), turned)
    return rest


def finished(root: Node) -> CutSheet:
    """The tree as a list of cuts in the order in which they are made; what nothing is needed from stays whole."""
    cuts: list[CutLine] = []
    left_over: list[Rectangle] = []
    placed: list[Placed] = []

    def walk(node: Node) -> None:
        if node.first is None or node.second is None:
            if node.holds is not None:
                placed.append(node.holds)
            else:
                left_over.append(node.rect)
            return
        halves = (node.first, node.second)
        if not any(leaf.holds for half in halves for leaf in half.leaves()):
            left_over.append(node.rect)  # nothing is needed from it: no cut
            return
        assert node.edge is not None
        mark = node.first.rect.width if node.edge == "left" else node.first.rect.height
        whole = node.rect.width if node.edge == "left" else node.rect.height
        gives = tuple(half.holds.blank.label for half in halves if half.holds is not None)
        cuts.append(CutLine(len(cuts) + 1, node.rect, node.edge, mark, whole - mark, gives))
        for half in halves:
            walk(half)

    walk(root)
    return CutSheet(root.rect.width, root.rect.height, tuple(placed), tuple(cuts), tuple(left_over))
