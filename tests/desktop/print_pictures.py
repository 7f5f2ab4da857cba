"""States in which pictures are placed, prints chosen, mats typed; for the pictures that are looked at and checked."""

from __future__ import annotations

import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

from PySide6.QtWidgets import QApplication, QWidget

from composer.desktop.fields import EntryField
from composer.desktop.main_window import MainWindow
from composer.editing.print_edits import change_mat, crop_anew
from composer.model import Crop, WeightedBorders
from composer.units import Length

Make = Callable[[MainWindow], QWidget | None]
State = tuple[str, Make]


def _key(window: MainWindow, number: int) -> str:
    return window.opened.project.piece_by_number[number].key


def _place(number: int, crop: Crop) -> Make:
    def make(window: MainWindow) -> None:
        window.opened.apply(crop_anew(window.opened.project, _key(window, number), crop))
        window.selection.set([_key(window, number)])
        QApplication.processEvents()
        window.actions_by_name["crop"].trigger()
        window.cropping.wait()
        QApplication.processEvents()

    return make


def _section(number: int, name: str, share: float) -> Make:
    """A section of a piece's card, scrolled so far down."""

    def make(window: MainWindow) -> None:
        window.selection.set([_key(window, number)])
        QApplication.processEvents()
        window.card.open_section(name)
        window.pictures.wait()
        QApplication.processEvents()
        _scroll(window, share)

    return make


def _scroll(window: MainWindow, share: float) -> None:
    QApplication.processEvents()
    card: Any = window.card.card
    bar = card.verticalScrollBar()
    bar.setValue(round(bar.maximum() * share))
    QApplication.processEvents()


def _typing(window: MainWindow) -> None:
    """A heavier bottom being typed."""
    key = _key(window, 3)
    edit = change_mat(
        window.opened.project,
        key,
        window_width=Length.from_text("435 mm"),
        window_height=Length.from_text("255 mm"),
        borders=WeightedBorders(extra=Length.from_text("10 mm")),
    )
    window.opened.apply(edit)
    _section(3, "mat", 0.35)(window)
    field = next(one for one in window.card.findChildren(EntryField) if one.accessibleName() == "Heavier by")
    field.lineEdit().setText("40")
    field.lineEdit().textEdited.emit("40")


def _missing(window: MainWindow) -> None:
    """A picture whose file is gone, told in the card and among the findings."""
    from composer.editing.picture_edits import change_picture

    project = window.opened.project
    gone = str(Path(tempfile.gettempdir()) / "not there" / "moth.jpg")
    picture = project.piece_by_number[5].uses[0].picture
    window.opened.apply(change_picture(project, picture, window.project_folder(), path=gone))
    _section(5, "picture", 0)(window)
    for _ in range(3):
        window.findings.check()
        window.picture_watch.wait()
        QApplication.processEvents()
    window.findings.set_open(is_open=True)


def _bringing(window: MainWindow) -> None:
    """How it looks while many pictures come in."""
    job = window.picture_desk.job("bring")
    job.is_busy, job._words = True, "Looking into pictures."
    job._announce()
    job._on_progress(17, 50)
    job.is_busy = False


def _patch(window: MainWindow) -> QWidget:
    from composer.desktop.pictures.patch_window import PatchWindow
    from composer.prints.plan import plan

    piece = window.opened.project.piece_by_number[3]
    printed = plan(window.opened.project, piece).print
    assert printed is not None
    picture = window.opened.project.picture_by_key[piece.uses[0].picture]
    shown = PatchWindow(window.project_folder() / picture.path, printed, "Sharp from 1.3 m.", window)
    shown.show()
    shown.wait()
    return shown


STATES: tuple[State, ...] = (
    ("placing", _place(5, Crop(zoom=1.3, centre=(0.45, 0.5)))),
    ("placing-tilted", _place(3, Crop(zoom=1.15, tilt_deg=3.4))),
    ("print-choice", _section(5, "picture", 0.55)),
    ("print-below", _section(6, "picture", 1)),
    ("mat-typing", _typing),
    ("mat-stack", _section(3, "mat", 1)),
)
"""Each in light and dark."""

CRAMPED: tuple[State, ...] = tuple(state for state in STATES if state[0] in ("placing", "print-choice", "mat-typing"))
"""At 1280 × 720 and with large letters, too."""

ONCE: tuple[State, ...] = (
    ("picture-missing", _missing),
    ("pictures-coming", _bringing),
    ("patch", _patch),
)
