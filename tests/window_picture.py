"""The picture of the window in README, made by the program itself: ``resources/help/window.png``.

python tests/window_picture.py          writes it
python tests/window_picture.py FILE     writes it elsewhere
"""

import os
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))
os.environ["QT_QPA_PLATFORM"] = "offscreen"
_scratch = tempfile.TemporaryDirectory()
for _name in ("XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_CACHE_HOME", "XDG_STATE_HOME"):
    os.environ[_name] = _scratch.name

from PySide6.QtTest import QTest  # noqa: E402
from PySide6.QtWidgets import QApplication  # noqa: E402

from composer.desktop.application import prepare  # noqa: E402
from composer.desktop.main_window import MainWindow  # noqa: E402
from composer.desktop.settings import Settings  # noqa: E402
from composer.projectfile import store  # noqa: E402

WIDTH, HEIGHT = 1360, 860


def take(target: Path) -> None:
    """Opens the sample wall as a first start does, and keeps what the window looks like."""
    application = QApplication([])
    settings = Settings()
    theme = prepare(application, settings)
    window = MainWindow(settings)
    window.opened.open(store.load(ROOT / "samples" / "sofa-wall.wallwright").project, None)
    window.resize(WIDTH, HEIGHT)
    window.show()
    QTest.qWaitForWindowExposed(window)
    QTest.qWait(300)  # cards are filled once the window has been painted
    target.parent.mkdir(parents=True, exist_ok=True)
    if not window.grab().save(str(target)):
        raise SystemExit(f"{target} cannot be written")
    window.close()
    del theme


if __name__ == "__main__":
    take(Path(sys.argv[1]) if len(sys.argv) > 1 else ROOT / "resources" / "help" / "window.png")
