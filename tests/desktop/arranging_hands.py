"""What the tests of arranging share: sketches awaited, and where everything hangs."""

from __future__ import annotations

import msgspec
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QAbstractButton, QApplication, QWidget
from pytestqt.qtbot import QtBot

from composer.desktop.arrangements.sketch_cell import SketchCell
from composer.desktop.main_window import MainWindow
from composer.editing.placing import Spot, put
from composer.model import Frame, Piece, Project, Wall
from composer.units import Length
from tests.desktop.conftest import room_project

CTRL, SHIFT, ALT = (
    Qt.KeyboardModifier.ControlModifier,
    Qt.KeyboardModifier.ShiftModifier,
    Qt.KeyboardModifier.AltModifier,
)
WATCHDOG_MS = 60_000


def tool(window: MainWindow, name: str) -> QWidget:
    button = window.toolbar.widgetForAction(window.actions_by_name[name])
    assert button is not None
    return button


def settle(qtbot: QtBot, window: MainWindow) -> list[SketchCell]:
    """Until the search has ended; gives the sketches."""
    sketching = window.arranging.sketching
    qtbot.waitUntil(lambda: not sketching.search.searching, timeout=WATCHDOG_MS)
    QApplication.processEvents()
    return sketching.strip.cells


def button(parent: QWidget, name: str) -> QAbstractButton:
    found = [one for one in parent.findChildren(QAbstractButton) if one.accessibleName() == name and one.isVisible()]
    assert found, name
    return found[0]


def hung(project: Project) -> dict[int, tuple[float, float, float, float]]:
    """Left, bottom, right, top of what hangs, by number."""
    found = {}
    for number, piece in project.piece_by_number.items():
        placed = project.placement_by_piece.get(piece.key)
        if placed is not None:
            width, height = piece.size_mm(turned=placed.turned)
            found[number] = (placed.left, placed.bottom, placed.left + width, placed.bottom + height)
    return found


def many(count: int) -> Project:
    sizes = [(180 + 37 * number % 260, 150 + 53 * number % 240) for number in range(count)]
    pieces = tuple(
        Piece(
            key=f"p{number}",
            number=number,
            name=f"Frame {number}",
            frame=Frame(width=Length.of_mm(width, "mm"), height=Length.of_mm(height, "mm")),
        )
        for number, (width, height) in enumerate(sizes, 1)
    )
    wall = Wall(key="w90", name="Long wall", width=Length.from_text("6000 mm"), height=Length.from_text("2600 mm"))
    empty = msgspec.structs.replace(room_project().arrangement, placements=())
    return room_project(walls=(wall,), pieces=pieces, next_key=100, next_number=count + 1, arrangements=(empty,))


def beside(window: MainWindow, gap: float) -> None:
    """2 hangs so far right of 1, both 400 high and level."""
    window.opened.open(room_project(), None)
    window.opened.apply(put(window.opened.project, {"p2": Spot("w10", 900 + gap, 1300)}))
    window.opened.stack.clear()
