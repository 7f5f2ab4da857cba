"""What a hand that places a picture must know of its frame: where print, window and sight size lie.

Everything is in millimetres from the piece's upper left corner as it hangs, y down.
"""

from __future__ import annotations

from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPolygonF, QTransform

from composer.model import Crop, Key, Project
from composer.prints.cropping import crop_box
from composer.prints.plan import plan
from composer.texts import say


class CannotPlace(Exception):
    """The picture cannot be placed yet; the message is one finished sentence."""


@dataclass(frozen=True, slots=True)
class Opening:
    """The frame round a picture.

    Attributes:
        outside: the frame's outer edge.
        sight: the inner edge of its moulding; None where the face is not known.
        printed: what the print fills.
        visible: what shows of it: the sight size, or the mat's window.
        matted: whether a mat covers the print's edge, not the lip.
        pixels: of the upright picture.
    """

    outside: QRectF
    sight: QRectF | None
    printed: QRectF
    visible: QRectF
    matted: bool
    pixels: tuple[int, int]

    @property
    def shape(self) -> tuple[float, float]:
        """Width and height of the print, mm."""
        return self.printed.width(), self.printed.height()

    @property
    def hidden_mm(self) -> float:
        """How much of the print lip or mat covers on the left."""
        return self.visible.left() - self.printed.left()

    def placed(self, crop: Crop) -> QTransform:
        """From pixels of the upright picture to millimetres, as this crop places it."""
        box = crop_box(self.pixels, crop, self.shape)
        made, middle = QTransform(), self.printed.center()
        made.translate(middle.x(), middle.y())
        made.scale(self.printed.width() / box.width, self.printed.width() / box.width)
        made.rotate(box.tilt_deg)
        made.translate(-box.centre[0], -box.centre[1])
        wide, high = box.pixels
        made.translate(*{0: (0, 0), 90: (wide, 0), 180: (wide, high), 270: (0, high)}[box.turn])
        made.rotate(box.turn)
        return made

    def outline(self, crop: Crop) -> QPolygonF:
        """The whole picture's corners as placed, mm; its own upper left one first."""
        wide, high = self.pixels
        corners = [QPointF(0, 0), QPointF(wide, 0), QPointF(wide, high), QPointF(0, high)]
        placed = self.placed(crop)
        return QPolygonF([placed.map(corner) for corner in corners])

    def share(self, at: QPointF) -> tuple[float, float]:
        """A point in shares of the print's width and height."""
        return (
            (at.x() - self.printed.left()) / self.printed.width(),
            (at.y() - self.printed.top()) / self.printed.height(),
        )


def opening_of(project: Project, key: Key) -> Opening:
    """The opening of a piece with the picture it shows now.

    Raises:
        CannotPlace: it shows none, or too little is measured.
    """
    piece = project.piece_by_key[key]
    if piece.current_use is None:
        raise CannotPlace(say("Piece {number} shows no picture yet.", number=piece.number))
    pixels = project.picture_by_key[piece.uses[piece.current_use].picture].pixels
    if pixels is None:
        raise CannotPlace(say("Piece {number}: its picture's file has not been read.", number=piece.number))
    planned = plan(project, piece)
    if planned.print is None or planned.glass_mm is None:
        if planned.mat_refused is not None:
            raise CannotPlace(say("Piece {number}: its mat's window is not decided yet.", number=piece.number))
        raise CannotPlace(
            say(
                "Piece {number}: measure its face or the glass first, so that its opening is known.",
                number=piece.number,
            )
        )
    width, height = piece.size_mm(turned=planned.turned)
    outside = QRectF(0, 0, width, height)
    sight = piece.frame.sight_mm
    if sight is not None and planned.turned:
        sight = sight[::-1]
    needed = planned.print.needed_mm
    if planned.mat is None:
        shown = planned.print.visible_mm or needed
        return Opening(
            outside,
            None if sight is None else _centred(sight, outside.center()),
            _centred(needed, outside.center()),
            _centred(shown, outside.center()),
            False,
            pixels,
        )
    board, four = _centred(planned.glass_mm, outside.center()), planned.mat.borders
    window = QRectF(board.left() + four.left, board.top() + four.top, *planned.mat.window_mm)
    printed = _centred(needed, window.center())
    return Opening(
        outside,
        None if sight is None else _centred(sight, outside.center()),
        printed,
        window.intersected(printed),
        True,
        pixels,
    )


def _centred(size: tuple[float, float], middle: QPointF) -> QRectF:
    return QRectF(middle.x() - size[0] / 2, middle.y() - size[1] / 2, *size)
