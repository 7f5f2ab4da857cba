"""Every picture of the windows, checked by code: nothing cut, nothing pale, nothing too small to hit.

Contrast 4.5 : 1 and targets of 24 px are WCAG 2.2 (1.4.3, 2.5.8); the colours are sampled from the picture.
"""

from pathlib import Path

import pytest
from PySide6.QtCore import QRectF
from PySide6.QtGui import QColor, QPainter, QPaintEvent
from PySide6.QtWidgets import QApplication, QLabel, QPushButton, QVBoxLayout, QWidget
from pytestqt.qtbot import QtBot

from tests.desktop.seen import clipped, contrast, elided, pale, picture_of, small_targets
from tests.desktop.window_pictures import PICTURES, Picture, shown


def named(picture: Picture) -> str:
    return picture.name


@pytest.mark.parametrize("picture", PICTURES, ids=named)
def test_a_picture_can_be_read_and_hit(picture: Picture, qapp: QApplication, tmp_path: Path) -> None:
    with shown(picture, qapp, tmp_path) as window:
        pixmap, texts = picture_of(window)
        assert texts
        assert clipped(window, texts) == []
        assert pale(pixmap, texts) == []
        assert small_targets(window) == []
        assert [text for text in elided(texts) if text not in MEANT] == []


MEANT = {"Save As…"}
"""Ellipses that are part of the words."""


def test_twelve_and_more() -> None:
    assert len({picture.name for picture in PICTURES}) == len(PICTURES) >= 12


class Bad(QWidget):
    """Everything the checks are there to find."""

    def __init__(self) -> None:
        super().__init__()
        column = QVBoxLayout(self)
        narrow = QLabel("A text that is far too long for its label")
        narrow.setFixedWidth(60)
        column.addWidget(narrow)
        small = QPushButton("x")
        small.setFixedSize(20, 20)
        column.addWidget(small)
        column.addSpacing(60)
        self.resize(300, 200)

    def paintEvent(self, event: QPaintEvent) -> None:
        with QPainter(self) as painter:
            painter.fillRect(self.rect(), QColor("#FFFFFF"))
            painter.setPen(QColor("#999999"))
            painter.drawText(QRectF(10, 150, 200, 30), 0, "pale words")
            painter.setPen(QColor("#000000"))
            painter.drawText(QRectF(10, 180, 30, 8), 0, "words cut off")


def test_the_checks_find_what_is_wrong(qtbot: QtBot) -> None:
    bad = Bad()
    qtbot.addWidget(bad)
    bad.show()
    pixmap, texts = picture_of(bad)
    assert any("far too long" in problem for problem in clipped(bad, texts))
    assert any("cut off" in problem for problem in clipped(bad, texts))
    assert any("pale words" in problem for problem in pale(pixmap, texts))
    assert any("20 × 20" in problem for problem in small_targets(bad))


def test_contrast_as_the_guideline_computes_it() -> None:
    # WCAG 2.2: black on white is 21; #767676 on white is the well-known 4.54.
    assert contrast(QColor("#000000"), QColor("#FFFFFF")) == pytest.approx(21)
    assert contrast(QColor("#767676"), QColor("#FFFFFF")) == pytest.approx(4.54, abs=0.005)
