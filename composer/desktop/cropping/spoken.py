"""How a picture lies in its frame, in words."""

from __future__ import annotations

from composer.desktop.cropping.opening import Opening
from composer.model import Crop
from composer.prints.cropping import crop_box
from composer.texts import say


def place_of(opening: Opening, crop: Crop) -> str:
    """Zoom, what is cut left and above, tilt and turn."""
    box = crop_box(opening.pixels, crop, opening.shape)
    words = say(
        "zoom {zoom}, {left} pixels cut at the left, {top} above",
        zoom=f"{crop.zoom:.2f}",
        left=round(box.centre[0] - box.width / 2),
        top=round(box.centre[1] - box.height / 2),
    )
    if crop.tilt_deg:
        words = say("{words}, tilted {degrees}°", words=words, degrees=f"{crop.tilt_deg:.1f}")
    if crop.turn:
        words = say("{words}, turned {turn}°", words=words, turn=crop.turn)
    return words
