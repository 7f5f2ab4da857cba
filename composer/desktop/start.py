"""Brings Qt up, or finds out that there is no screen before anything is shown."""

import gc
import os
import sys
from types import ModuleType

from PySide6.QtCore import QMessageLogContext, QTimer, QtMsgType, qInstallMessageHandler
from PySide6.QtWidgets import QApplication

INVISIBLE = frozenset({"offscreen", "minimal"})
"""Platforms of Qt on which a window exists but nobody sees it."""

SHOW_ANYWAY = "WALLWRIGHT_WINDOW"
"""Environment variable: 1 = open the window on an invisible platform too (measurements, pictures)."""

_NO_DISPLAY = ("could not connect to display", "wl_display", "could not find the qt platform plugin")


class NoScreen(Exception):
    """There is no screen to open the window on."""


def start_window(file: str | None, *, restart: list[str]) -> int:
    """Opens the window on a file and returns the exit code once it is closed.

    Args:
        file: the project; None = where the person left off, the first time the sample wall.
        restart: the command, without its last words, that goes on without a window where Qt gives up.

    Raises:
        NoScreen: the platform is an invisible one.
    """
    application = _application(file, restart)
    if application.platformName() in INVISIBLE and os.environ.get(SHOW_ANYWAY) != "1":
        application.shutdown()
        gc.enable()
        raise NoScreen
    _spare_reading_sources()
    from composer.desktop.application import open_window

    QTimer.singleShot(1000, _collect_garbage_again)
    return open_window(application, file)


def _application(file: str | None, restart: list[str]) -> QApplication:
    """The application; where Qt would abort for want of a display, this process becomes ``restart``."""
    said: list[str] = []

    def listen(kind: QtMsgType, context: QMessageLogContext, message: str) -> None:
        said.append(message.lower())
        if kind == QtMsgType.QtFatalMsg and sys.platform != "win32":
            told = " ".join(said)
            reason = "screen" if any(sign in told for sign in _NO_DISPLAY) else "libraries"
            sys.stdout.flush()
            sys.stderr.flush()
            os.execv(restart[0], [*restart, reason, *([file] if file else [])])

    previous = qInstallMessageHandler(listen)
    try:
        return QApplication(["wallwright"])
    finally:
        qInstallMessageHandler(previous)


def _spare_reading_sources() -> None:
    """Tells the binding which modules use Qt; else it reads the source of each one imported from now on to find out.

    It asks a function of its own, which is given a shorter way here; where a release has none, all stays as it is.
    Measured: 9 of 265 ms of a start.
    """
    feature = sys.modules.get("shibokensupport.feature")
    reads = getattr(feature, "_mod_uses_pyside", None)
    if feature is None or not callable(reads):
        return

    def uses_qt(module: ModuleType) -> bool:
        package, _, rest = module.__name__.partition(".")
        if package == "composer":
            return rest.startswith("desktop")
        return package not in sys.stdlib_module_names and bool(reads(module))

    feature._mod_uses_pyside = uses_qt  # type: ignore[attr-defined]


def _collect_garbage_again() -> None:
    """What start-up made stays for good, so the collector need not look at it (measured: 6 ms a start)."""
    gc.freeze()
    gc.enable()
