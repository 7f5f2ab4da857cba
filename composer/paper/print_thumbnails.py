"""What each print will show, small: in the drawings of prints, and as a contact sheet below the order."""

import io
from collections.abc import Sequence
from pathlib import Path

from composer.paper.primitives import THIN_PT, Photo
from composer.paper.print_flow import PrintFlow
from composer.paper.print_rows import PrintRow
from composer.texts import say

SIDE_PIXELS = 360
"""Longer side of a thumbnail: 43 mm of paper at 210 ppi."""

_QUALITY = 85
_PITCH_MM, _PHOTO_MM = (47.5, 50.0), (43.0, 37.0)


def thumbnails(rows: Sequence[PrintRow], folder: Path | None) -> dict[str, bytes]:
    """A JPEG of what each print keeps, by the piece's key; a file that cannot be read is left out.

    Args:
        rows: the prints.
        folder: from which the pictures' paths are counted; None = no pictures.
    """
    if folder is None:
        return {}
    from composer.pictures.decoding import decode_crop
    from composer.pictures.refused import BadPicture

    found: dict[str, bytes] = {}
    for row in rows:
        crop = row.printed.crop
        if crop is None:
            continue
        scale = SIDE_PIXELS / max(crop.width, crop.height)
        size = (max(1, round(crop.width * scale)), max(1, round(crop.height * scale)))
        try:
            image = decode_crop(folder / row.picture.path, crop, size)
        except BadPicture:
            continue
        made = io.BytesIO()
        image.save(made, "JPEG", quality=_QUALITY)
        found[row.piece.key] = made.getvalue()
    return found


def draw_contacts(flow: PrintFlow, rows: Sequence[PrintRow]) -> None:
    """The prints in rows of four, each with its number, name and size below."""
    shown = [row for row in rows if row.piece.key in flow.photos]
    if not shown:
        return
    flow.room(12.0 + _PITCH_MM[1])
    base = flow.y - 10.0
    flow.drawing.text(flow.area.left, base, say("What they show"), 14, "semibold", within=flow.area.width)
    flow.y = base - 3.0
    count = max(1, int(flow.area.width / _PITCH_MM[0] + 1e-6))
    pitch = flow.area.width / count
    for start in range(0, len(shown), count):
        flow.room(_PITCH_MM[1])
        for index, row in enumerate(shown[start : start + count]):
            _contact(flow, row, flow.area.left + index * pitch, pitch)
        flow.y -= _PITCH_MM[1]


def _contact(flow: PrintFlow, row: PrintRow, left: float, pitch: float) -> None:
    pen = flow.drawing
    width, height = row.printed.needed_mm
    scale = max(width / _PHOTO_MM[0], height / _PHOTO_MM[1])
    wide, high = width / scale, height / scale
    bottom = flow.y - 1.0 - _PHOTO_MM[1]
    pen.add(Photo(left, bottom, wide, high, flow.photos[row.piece.key]))
    pen.box(left, bottom, wide, high, THIN_PT)
    used = pen.text(left, bottom - 4.6, str(row.piece.number), 12, "bold", within=10)
    pen.text(left + used + 1.6, bottom - 4.6, row.piece.name, 9, "semibold", within=pitch - used - 4.0)
    size = say("to measure") if row.printed.fit is None else row.printed.fit.stock.shown
    paper = row.use.print.paper
    words = say("{size}, {paper}", size=size, paper=paper) if paper else size
    pen.text(left, bottom - 9.0, words, 9, within=pitch - 3.0)
