"""The smallest fair window to compare a start with: the same Qt modules, Fusion, an empty view in a main window."""

import os
import sys
import time

from PySide6.QtCore import QCoreApplication, QEvent, QObject, Qt
from PySide6.QtWidgets import QApplication, QGraphicsScene, QGraphicsView, QMainWindow


class View(QGraphicsView):
    """Says when it was painted for the first time."""

    def viewportEvent(self, event: QEvent) -> bool:
        """The first paint ends the measurement, once what is painted with it is done."""
        answer = super().viewportEvent(event)
        if event.type() == QEvent.Type.Paint:
            end_when_shown()
        return answer


class End(QObject):
    """Tells the time and leaves, at the first event it gets."""

    def event(self, event: QEvent) -> bool:
        """The paint is done and on its way to the screen: a posted event comes right after it."""
        sys.stdout.write(f"{time.monotonic_ns()}\n")
        sys.stdout.flush()
        os._exit(0)


ends: list[End] = []


def end_when_shown() -> None:
    """Ends the measurement once the paint that is going on is done."""
    if not ends:
        ends.append(End())
        QCoreApplication.postEvent(ends[0], QEvent(QEvent.Type.User), Qt.EventPriority.HighEventPriority.value)


if __name__ == "__main__":
    application = QApplication(["bare"])
    application.setStyle("Fusion")
    window = QMainWindow()
    scene = QGraphicsScene(0, 0, 3200, 2400)
    view = View(scene)
    view.setAlignment(Qt.AlignmentFlag.AlignLeft)
    window.setCentralWidget(view)
    window.resize(1440, 900)
    window.show()
    application.exec()
