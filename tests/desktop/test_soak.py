"""Some seconds of random use in the suite; ten minutes of it by ``tests/soak/ten_minutes.py``."""

from PySide6.QtWidgets import QApplication

from tests.soak.ten_minutes import run


def test_random_use_leaves_nothing_wrong(qapp: QApplication) -> None:
    told: list[str] = []
    assert run(3, 20261125, told.append) == []
    assert "edits" in told[0]
