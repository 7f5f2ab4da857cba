"""The pictures of the manual, made by the program itself from the sample walls.

python tests/help_pictures.py           writes resources/help/*.png
python tests/help_pictures.py FOLDER    writes them elsewhere
"""

import io
import os
import sys
import tempfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))
os.environ["QT_QPA_PLATFORM"] = "offscreen"

from PIL import Image  # noqa: E402
from PySide6.QtCore import QBuffer  # noqa: E402
from PySide6.QtWidgets import QApplication, QWidget  # noqa: E402

from tests.desktop.window_pictures import PICTURES, shown  # noqa: E402

TAKEN = {
    "first-frame": (1120, 800),
    "dragging": (1120, 700),
    "paste-preview": (0, 0),
    "placing": (1280, 720),
    "sketches": (1280, 800),
    "printing": (1280, 720),
    "costs": (0, 0),
    "change-plan": (0, 0),
    "ladder-hole": (1120, 680),
    "ladder-press": (1120, 680),
}
"""Pictures of the manual and the size of their windows; 0 = as it opens."""


def take(folder: Path) -> None:
    """Writes all of them."""
    application = QApplication([])
    for picture in PICTURES:
        if picture.name not in TAKEN:
            continue
        size = TAKEN[picture.name]
        made = picture if not size[0] else type(picture)(picture.name, picture.make, picture.sample, "light", size)
        with tempfile.TemporaryDirectory() as scratch, shown(made, application, Path(scratch)) as window:
            _save(window, folder / f"{picture.name}.png")


def _save(window: QWidget, path: Path) -> None:
    """256 colours hold a drawing of flat tones, and make the file a third as large."""
    memory = QBuffer()
    memory.open(QBuffer.OpenModeFlag.WriteOnly)
    window.grab().save(memory, "PNG")
    with Image.open(io.BytesIO(memory.data().data())) as image:
        image.convert("RGB").quantize(256, dither=Image.Dither.NONE).save(path, optimize=True)


if __name__ == "__main__":
    take(Path(sys.argv[1]) if len(sys.argv) > 1 else ROOT / "resources" / "help")
