"""Which pixels of a picture fill an opening: centre, zoom, quarter turns and a small tilt.

Everything is in pixels of the picture as the camera meant it, x to the right, y down.
"""

import math
from dataclasses import dataclass
from typing import Literal

from composer.model import Crop


@dataclass(frozen=True, slots=True)
class CropBox:
    """A rectangle of the picture, after its quarter turn.

    Attributes:
        pixels: width and height of the whole picture after the quarter turn.
        centre: of the rectangle, in those pixels from the upper left corner.
        width, height: of the rectangle, in pixels; not whole.
        turn: quarter turns clockwise done first.
        tilt_deg: the rectangle is turned anticlockwise about its centre by this, so the picture comes
            out turned clockwise.
    """

    pixels: tuple[int, int]
    centre: tuple[float, float]
    width: float
    height: float
    turn: Literal[0, 90, 180, 270]
    tilt_deg: float

    @property
    def corners(self) -> tuple[tuple[float, float], ...]:
        """Upper left, upper right, lower right, lower left, in pixels."""
        cos, sin = math.cos(math.radians(self.tilt_deg)), math.sin(math.radians(self.tilt_deg))
        halves = ((-1, -1), (1, -1), (1, 1), (-1, 1))
        x, y = self.centre
        return tuple(
            (
                x + a * self.width / 2 * cos + b * self.height / 2 * sin,
                y - a * self.width / 2 * sin + b * self.height / 2 * cos,
            )
            for a, b in halves
        )

    @property
    def lost(self) -> float:
        """Share of the picture that is not used, 0…1."""
        return 1 - self.width * self.height / (self.pixels[0] * self.pixels[1])


def crop_box(pixels: tuple[int, int], crop: Crop, shape: tuple[float, float]) -> CropBox:
    """The part of a picture that fills an opening.

    Args:
        pixels: width and height of the picture as the camera meant it.
        crop: centre and zoom; zoom 1 just fills the opening.
        shape: width and height of the opening, in any unit.
    """
    wide, high = pixels if crop.turn in (0, 180) else pixels[::-1]
    cos, sin = math.cos(math.radians(crop.tilt_deg)), abs(math.sin(math.radians(crop.tilt_deg)))
    # Around the tilted opening lies an upright rectangle that must stay inside the picture.
    around = (shape[0] * cos + shape[1] * sin, shape[0] * sin + shape[1] * cos)
    scale = min(wide / around[0], high / around[1]) / crop.zoom
    half = (around[0] * scale / 2, around[1] * scale / 2)
    x, y = _turned(crop.centre, crop.turn)
    centre = (min(max(x * wide, half[0]), wide - half[0]), min(max(y * high, half[1]), high - half[1]))
    return CropBox((wide, high), centre, shape[0] * scale, shape[1] * scale, crop.turn, crop.tilt_deg)


def _turned(centre: tuple[float, float], turn: int) -> tuple[float, float]:
    """A point of the unit square after quarter turns clockwise of the picture."""
    x, y = centre
    return {0: (x, y), 90: (1 - y, x), 180: (1 - x, 1 - y), 270: (y, 1 - x)}[turn]


def unturned(centre: tuple[float, float], turn: int) -> tuple[float, float]:
    """The other way: a point of the turned picture as a crop stores it."""
    return _turned(centre, (360 - turn) % 360)


def fitted_mm(pixels: tuple[float, float], size_mm: tuple[float, float]) -> tuple[float, float]:
    """How large the whole picture is inside a size, with white left over on two sides, mm."""
    scale = min(size_mm[0] / pixels[0], size_mm[1] / pixels[1])
    return pixels[0] * scale, pixels[1] * scale
