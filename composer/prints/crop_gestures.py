"""Dragging and zooming a picture in its opening: from a gesture to the crop it leaves."""

import math

from composer.model import Crop
from composer.prints.cropping import CropBox, crop_box, unturned

LEAST_ZOOM, MOST_ZOOM = 1.0, 100.0


def point_under(box: CropBox, across: float, down: float) -> tuple[float, float]:
    """The pixel, after the quarter turn, that is seen at these shares of the opening's width and height."""
    cos, sin = math.cos(math.radians(box.tilt_deg)), math.sin(math.radians(box.tilt_deg))
    a, b = (across - 0.5) * box.width, (down - 0.5) * box.height
    return box.centre[0] + a * cos + b * sin, box.centre[1] - a * sin + b * cos


def dragged(pixels: tuple[int, int], crop: Crop, shape: tuple[float, float], across: float, down: float) -> Crop:
    """The picture pulled by these shares of the opening's width and height; it never leaves the opening bare."""
    box = crop_box(pixels, crop, shape)
    to = point_under(box, 0.5 - across, 0.5 - down)
    return _centred(pixels, crop, shape, to)


def zoomed(
    pixels: tuple[int, int], crop: Crop, shape: tuple[float, float], zoom: float, at: tuple[float, float] = (0.5, 0.5)
) -> Crop:
    """Closer or further, about a point of the opening that stays where it is as long as there is picture around it.

    Args:
        zoom: the new one, 1 to 100; 1 just fills the opening.
        at: shares of the opening's width and height.
    """
    zoom = min(max(zoom, LEAST_ZOOM), MOST_ZOOM)
    held = point_under(crop_box(pixels, crop, shape), *at)
    nearer = Crop(centre=crop.centre, zoom=zoom, turn=crop.turn, tilt_deg=crop.tilt_deg)
    box = crop_box(pixels, nearer, shape)
    now = point_under(box, *at)
    to = (box.centre[0] + held[0] - now[0], box.centre[1] + held[1] - now[1])
    return _centred(pixels, nearer, shape, to)


def turned(crop: Crop, clockwise: bool = True) -> Crop:
    """A quarter turn of the picture; its middle stays the middle."""
    turns = {0: (90, 270), 90: (180, 0), 180: (270, 90), 270: (0, 180)}
    turn = turns[crop.turn][0 if clockwise else 1]
    return Crop(centre=crop.centre, zoom=crop.zoom, turn=turn, tilt_deg=crop.tilt_deg)  # type: ignore[arg-type]


def _centred(pixels: tuple[int, int], crop: Crop, shape: tuple[float, float], to: tuple[float, float]) -> Crop:
    """The crop with its centre there, kept inside the picture, in pixels after the quarter turn."""
    wide, high = pixels if crop.turn in (0, 180) else pixels[::-1]
    share = (min(max(to[0] / wide, 0.0), 1.0), min(max(to[1] / high, 0.0), 1.0))
    wanted = Crop(centre=unturned(share, crop.turn), zoom=crop.zoom, turn=crop.turn, tilt_deg=crop.tilt_deg)
    box = crop_box(pixels, wanted, shape)
    inside = unturned((box.centre[0] / wide, box.centre[1] / high), crop.turn)
    centre = (min(max(round(inside[0], 9), 0.0), 1.0), min(max(round(inside[1], 9), 0.0), 1.0))
    return Crop(centre=centre, zoom=crop.zoom, turn=crop.turn, tilt_deg=crop.tilt_deg)
