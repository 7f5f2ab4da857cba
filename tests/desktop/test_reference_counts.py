"""A release of PySide6 must not eat references to ``None``.

PySide6 6.12.0 lowers the reference count of ``None`` at each call that returns nothing; Python 3.11 then
dies with "none_dealloc" after some thousand of them (found on 3.10 and 3.11; from 3.12 ``None`` is
immortal, PEP 683). This probe clears a release before the bound in pyproject.toml is raised.
"""

import sys

import pytest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

CALLS = 2000


@pytest.mark.skipif(sys.version_info >= (3, 12), reason="None is immortal from Python 3.12 (PEP 683)")
def test_calls_that_return_nothing_keep_none_alive(qtbot: QtBot) -> None:
    widget = QWidget()
    qtbot.addWidget(widget)
    before = sys.getrefcount(None)
    for _ in range(CALLS):
        QApplication.processEvents()
        widget.update()
    assert before - sys.getrefcount(None) < 20
