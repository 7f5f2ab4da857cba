"""Axis-parallel rectangles in millimetres, the shape of everything that hangs straight."""

from typing import NamedTuple


class Rectangle(NamedTuple):
    """A rectangle by its left, bottom, right and top, mm, y up; never inside out."""

    left: float
    bottom: float
    right: float
    top: float

    @classmethod
    def at(cls, left: float, bottom: float, width: float, height: float) -> "Rectangle":
        """The rectangle of that size with its lower left corner there."""
        return cls(left, bottom, left + width, bottom + height)

    @property
    def width(self) -> float:
        """From left to right, mm."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """From bottom to top, mm."""
        return self.top - self.bottom

    @property
    def centre(self) -> tuple[float, float]:
        """Middle point, mm."""
        return (self.left + self.right) / 2, (self.bottom + self.top) / 2

    def grown(self, margin: float) -> "Rectangle":
        """The rectangle with ``margin`` mm more on every side."""
        return Rectangle(self.left - margin, self.bottom - margin, self.right + margin, self.top + margin)

    def moved(self, dx: float, dy: float) -> "Rectangle":
        """The rectangle shifted by (dx, dy) mm."""
        return Rectangle(self.left + dx, self.bottom + dy, self.right + dx, self.top + dy)

    def united(self, other: "Rectangle") -> "Rectangle":
        """The smallest rectangle around both."""
        return Rectangle(
            min(self.left, other.left),
            min(self.bottom, other.bottom),
            max(self.right, other.right),
            max(self.top, other.top),
        )

    def overlap(self, other: "Rectangle") -> tuple[float, float]:
        """How far both reach into each other, across and up, mm; not positive in one of the two when apart."""
        return (
            min(self.right, other.right) - max(self.left, other.left),
            min(self.top, other.top) - max(self.bottom, other.bottom),
        )

    def meets(self, other: "Rectangle", *, least: float = 1e-6) -> bool:
        """Whether both share more than ``least`` mm each way; touching edges do not count."""
        across, up = self.overlap(other)
        return across > least and up > least

    def holds(self, x: float, y: float) -> bool:
        """Whether the point lies inside or on the edge."""
        return self.left <= x <= self.right and self.bottom <= y <= self.top
