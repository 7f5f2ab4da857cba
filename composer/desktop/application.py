"""The running program: its window, what happens when something goes wrong, what is loaded after the first paint."""

from __future__ import annotations

import logging
import sys
import threading
from pathlib import Path
from types import TracebackType

from PySide6.QtCore import QMessageLogContext, QObject, Qt, QTimer, QtMsgType, qInstallMessageHandler
from PySide6.QtWidgets import QApplication

from composer.desktop.main_window import MainWindow
from composer.desktop.settings import Settings
from composer.desktop.theme import Theme
from composer.desktop.window_sizes import fit_to_screen
from composer.texts import say

WARM_AFTER_MS = 300
"""The first paint comes first: another thread that imports would slow it."""
WARM = ("shapely", "reportlab.pdfgen.canvas", "PIL.Image", "pint")

_EFFECTS = (
    Qt.UIEffect.UI_AnimateMenu,
    Qt.UIEffect.UI_FadeMenu,
    Qt.UIEffect.UI_AnimateCombo,
    Qt.UIEffect.UI_AnimateTooltip,
    Qt.UIEffect.UI_FadeTooltip,
    Qt.UIEffect.UI_AnimateToolBox,
)

log = logging.getLogger("wallwright")


def open_window(application: QApplication, file: str | None) -> int:
    """Shows the window on a file and runs until it is closed; the exit code.

    Args:
        application: made by whoever found out that there is a screen.
        file: the project; None = the last one, the first time the sample wall.
    """
    settings = Settings()
    prepare(application, settings)
    window = MainWindow(settings)
    watch = Watch(window)
    sys.excepthook = watch.on_exception
    qInstallMessageHandler(_to_log)
    if (geometry := settings.window_geometry) is not None:
        window.restoreGeometry(geometry)
    else:
        fit_to_screen(window)
    open_first(window, settings, file)
    window.show()
    QTimer.singleShot(WARM_AFTER_MS, warm_up)
    QTimer.singleShot(0, window.keeping.offer_recovery)
    return application.exec()


def prepare(application: QApplication, settings: Settings) -> Theme:
    """Style, names and look of the application."""
    application.setApplicationName("wallwright")
    application.setApplicationDisplayName("Wallwright")
    application.setStyle("Fusion")
    # Nothing slides or fades: what moves is what the hand moves, whatever the system prefers.
    for effect in _EFFECTS:
        QApplication.setEffectEnabled(effect, False)
    return Theme(application, settings.scheme, settings.text_percent)


def open_first(window: MainWindow, settings: Settings, file: str | None) -> None:
    """The file named, else where the person left off, the first time the sample wall with hints."""
    if file is not None:
        window.files.open_path(Path(file))
        return
    recent = settings.recent_files
    if recent:
        window.files.open_path(recent[0])
        return
    window.files.open_sample()
    from composer.desktop.hints import Hints

    Hints(window).show_next()


class Watch(QObject):
    """Keeps the work safe when something goes wrong."""

    def __init__(self, window: MainWindow) -> None:
        super().__init__(window)
        self._window = window
        self._telling = False

    def on_exception(self, kind: type[BaseException], error: BaseException, trace: TracebackType | None) -> None:
        """An error nobody caught: the recovery copy first, one sentence, the rest to the log."""
        log.error("uncaught", exc_info=(kind, error, trace))
        if issubclass(kind, KeyboardInterrupt):
            self._window.close()
            return
        self._window.recovery.write()
        if not self._telling:
            self._telling = True
            self._window.files.ask.tell(
                self._window,
                say(
                    "Something went wrong in the program ({what}). Your work is kept; save it now.", what=kind.__name__
                ),
            )
            self._telling = False


def warm_up() -> None:
    """Loads the slow libraries in a thread, so that the first use of each does not wait."""
    threading.Thread(target=_load, name="warm-up", daemon=True).start()


def _load() -> None:
    import importlib

    for name in WARM:
        try:
            importlib.import_module(name)
        except ImportError:
            log.warning("not there: %s", name)


def _to_log(kind: QtMsgType, context: QMessageLogContext, message: str) -> None:
    level = {QtMsgType.QtWarningMsg: logging.WARNING, QtMsgType.QtDebugMsg: logging.DEBUG}.get(kind, logging.ERROR)
    log.log(logging.INFO if kind == QtMsgType.QtInfoMsg else level, "%s", message)
