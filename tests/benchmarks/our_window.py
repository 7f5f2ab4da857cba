"""The program's own start on a file, stopped where its room has been painted for the first time."""

import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent
sys.path.insert(0, str(ROOT))

import composer.desktop  # noqa: E402 (before Qt, as the program does)

assert composer.desktop.__doc__

from PySide6.QtCore import QEvent  # noqa: E402

from tests.benchmarks.bare_window import end_when_shown  # noqa: E402


def stop_at_first_paint() -> None:
    """The room's first paint ends the measurement, once what is painted with it is done."""
    from composer.desktop.room.view import RoomView

    plain = RoomView.viewportEvent

    def watched(self: RoomView, event: QEvent) -> bool:
        answer = plain(self, event)
        if event.type() == QEvent.Type.Paint:
            end_when_shown()
        return answer

    RoomView.viewportEvent = watched  # type: ignore[method-assign]


if __name__ == "__main__":
    from composer.__main__ import main

    stop_at_first_paint()
    sys.argv = ["wallwright", *sys.argv[1:]]
    sys.exit(main())
