"""Pictures of what a person sees, to be looked at: every sheet, and the windows.

python tests/look.py                    all pictures, to build/look
python tests/look.py FOLDER             elsewhere
python tests/look.py [FOLDER] --sheets  paper alone; needs no Qt
python tests/look.py [FOLDER] --window  the windows alone
"""

import argparse
import importlib
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent

PARTS = {"sheets": "tests.paper.sheet_pictures", "window": "tests.desktop.window_pictures"}
"""What can be looked at, and the module whose ``take(folder)`` writes its pictures and yields their paths."""


def main(arguments: list[str]) -> int:
    """Takes the pictures asked for and says how many lie where."""
    parser = argparse.ArgumentParser(description="Pictures of every sheet and of the windows.")
    parser.add_argument("folder", nargs="?", type=Path, default=ROOT / "build" / "look")
    for part in PARTS:
        parser.add_argument(f"--{part}", action="append_const", dest="parts", const=part, help=f"only the {part}")
    asked = parser.parse_args(arguments)
    sys.path.insert(0, str(ROOT))
    for part in asked.parts or PARTS:
        folder: Path = asked.folder / part
        folder.mkdir(parents=True, exist_ok=True)
        for old in folder.glob("*.png"):
            old.unlink()
        count = sum(1 for _ in importlib.import_module(PARTS[part]).take(folder))
        print(f"{part}: {count} pictures in {folder}")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
