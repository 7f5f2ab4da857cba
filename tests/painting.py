"""A sheet to paint flat illustrations on, in parts of its height, x to the right and y down.

It is painted at twice the size wanted and brought down at the end, which smooths every edge.
"""

import math

from PIL import Image, ImageDraw

LONG_SIDE_PX = 1800
TWICE = 2

Point = tuple[float, float]


class Sheet:
    """A sheet to paint on: 1 high, ``wide`` wide."""

    def __init__(self, wide: float, ground: str) -> None:
        long = LONG_SIDE_PX * TWICE
        self.px = long / max(wide, 1.0)
        self.wide = wide
        self.image = Image.new("RGB", (round(wide * self.px), round(self.px)), ground)
        self._draw = ImageDraw.Draw(self.image)

    def area(self, points: list[Point], colour: str) -> None:
        """A filled shape."""
        self._draw.polygon([(x * self.px, y * self.px) for x, y in points], fill=colour)

    def box(self, left: float, top: float, right: float, bottom: float, colour: str, corner: float = 0.0) -> None:
        """A filled rectangle, its corners rounded."""
        sides = [side * self.px for side in (left, top, right, bottom)]
        self._draw.rounded_rectangle(sides, corner * self.px, fill=colour)

    def disc(self, x: float, y: float, radius: float, colour: str, high: float | None = None) -> None:
        """A filled circle or, with ``high``, an ellipse."""
        up = radius if high is None else high
        self._draw.ellipse(
            [(x - radius) * self.px, (y - up) * self.px, (x + radius) * self.px, (y + up) * self.px], colour
        )

    def line(self, points: list[Point], colour: str, thick: float) -> None:
        """A line with round joints."""
        width = max(1, round(thick * self.px))
        at = [(x * self.px, y * self.px) for x, y in points]
        self._draw.line(at, fill=colour, width=width, joint="curve")
        for x, y in (at[0], at[-1]):
            self._draw.ellipse([x - width / 2, y - width / 2, x + width / 2, y + width / 2], colour)

    def wave(self, level: float, swing: float, length: float, start: float = 0.0) -> list[Point]:
        """A wavy line across the sheet."""
        steps = 160
        along = [self.wide * step / steps for step in range(-2, steps + 3)]
        return [(x, level + swing * math.sin(math.tau * (x / length + start))) for x in along]

    def below(self, edge: list[Point], colour: str) -> None:
        """Everything below an edge."""
        self.area([*edge, (edge[-1][0], 1.1), (edge[0][0], 1.1)], colour)

    def finished(self) -> Image.Image:
        """The sheet at its wanted size."""
        size = (self.image.width // TWICE, self.image.height // TWICE)
        return self.image.resize(size, Image.Resampling.LANCZOS)
