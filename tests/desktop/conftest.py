"""A whole window on a small project, in its own settings folder, and the real path of the pointer."""

from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, QPoint, QPointF, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QWidget
from pytestqt.qtbot import QtBot

from composer.desktop.files import Answer
from composer.desktop.main_window import MainWindow
from composer.desktop.settings import Settings
from composer.desktop.theme import Theme
from composer.model import Arrangement, Frame, Hanger, Obstacle, Piece, Placement, Project, Wall
from composer.units import Length
from tests.desktop.ladder import Person


def room_project(**changes: object) -> Project:
    """A wall of 3 200 by 2 400 with a sofa; 1 and 2 hang, 3 and 4 lie on the floor."""
    length = Length.from_text
    sizes = {1: (500, 400), 2: (300, 400), 3: (400, 300), 4: (200, 200)}
    pieces = tuple(
        Piece(
            key=f"p{number}",
            number=number,
            name=f"Frame {number}",
            frame=Frame(width=length(f"{width} mm"), height=length(f"{height} mm")),
            hanger=Hanger(kind="sawtooth", drop=length("20 mm")),
        )
        for number, (width, height) in sizes.items()
    )
    sofa = Obstacle(key="o20", kind="sofa", left=440, bottom=0, width=length("2120 mm"), height=length("820 mm"))
    wall = Wall(key="w10", name="Sofa wall", width=length("3200 mm"), height=length("2400 mm"), obstacles=(sofa,))
    arrangement = Arrangement(
        key="h11",
        name="first",
        gap=length("50 mm"),
        placements=(
            Placement(piece="p1", wall="w10", left=400, bottom=1300),
            Placement(piece="p2", wall="w10", left=1500, bottom=1400),
        ),
    )
    fields: dict[str, object] = {
        "title": "Test flat",
        "next_key": 30,
        "next_number": 5,
        "walls": (wall,),
        "pieces": pieces,
        "arrangements": (arrangement,),
        "current_arrangement": "h11",
    }
    return Project(**{**fields, **changes})  # type: ignore[arg-type]


class Answers:
    """Stands where the dialogs would ask; answers are put in beforehand, what was asked is kept."""

    def __init__(self) -> None:
        self.path: Path | None = None
        self.answer: Answer = "discard"
        self.agree = True
        self.typed: str | None = None
        self.told: list[str] = []
        self.dialogs: list[QWidget] = []

    def open_path(self, parent: QWidget, title: str, kinds: str) -> Path | None:
        return self.path

    def open_paths(self, parent: QWidget, title: str, kinds: str) -> list[Path]:
        return [] if self.path is None else [self.path]

    def folder(self, parent: QWidget, title: str) -> Path | None:
        return self.path

    def run(self, dialog: QWidget) -> None:
        self.dialogs.append(dialog)

    def save_path(self, parent: QWidget, title: str, start: str, kinds: str) -> Path | None:
        return self.path

    def save_first(self, parent: QWidget, name: str) -> Answer:
        self.told.append(name)
        return self.answer

    def yes(self, parent: QWidget, question: str, do: str) -> bool:
        self.told.append(question)
        return self.agree

    def tell(self, parent: QWidget, sentence: str) -> None:
        self.told.append(sentence)

    def line(self, parent: QWidget, title: str, label: str) -> str | None:
        return self.typed


@pytest.fixture
def window(qtbot: QtBot, tmp_path: Path, qapp: QApplication) -> Iterator[MainWindow]:
    """The window, shown, with a chosen size; closed without saving afterwards."""
    settings = Settings(tmp_path / "settings")
    found = qapp.findChild(Theme)
    look = found if isinstance(found, Theme) else Theme(qapp, "light")
    qapp.setStyle("Fusion")
    look.choose("light")
    look.set_text_percent(100)
    made = MainWindow(settings, room_project())
    made.files.ask = Answers()  # type: ignore[assignment]
    made.resize(1440, 900)
    made.show()
    qtbot.waitExposed(made)
    qtbot.waitUntil(lambda: made.is_up, timeout=10000)
    qapp.processEvents()
    yield made
    made.files.ask = Answers()  # type: ignore[assignment]
    made.close()
    made.recovery.discard()
    made.deleteLater()
    # processEvents leaves deletions for a loop that is not there; windows would pile up and slow every test.
    qapp.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
    qapp.processEvents()


Drag = Callable[..., None]


@pytest.fixture
def drag(window: MainWindow, qapp: QApplication) -> Drag:
    """Presses on a point of the wall (mm), moves in steps, releases (unless told not to)."""

    def do(
        start: tuple[float, float],
        end: tuple[float, float],
        modifiers: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier,
        *,
        release: bool = True,
        steps: int = 6,
    ) -> None:
        port = window.view.viewport()
        first = window.view.mapFromScene(QPointF(start[0], -start[1]))
        last = window.view.mapFromScene(QPointF(end[0], -end[1]))
        QTest.mousePress(port, Qt.MouseButton.LeftButton, modifiers, first)
        for step in range(1, steps + 1):
            at = QPointF(first) + (QPointF(last) - QPointF(first)) * step / steps
            move(window, at.toPoint(), modifiers)
            qapp.processEvents()
        if release:
            QTest.mouseRelease(port, Qt.MouseButton.LeftButton, modifiers, last)
            qapp.processEvents()

    return do


def move(window: MainWindow, at: QPoint, modifiers: Qt.KeyboardModifier) -> None:
    """One move of the pointer with the left button down and keys held."""
    from PySide6.QtGui import QMouseEvent

    port = window.view.viewport()
    event = QMouseEvent(
        QEvent.Type.MouseMove,
        QPointF(at),
        QPointF(port.mapToGlobal(at)),
        Qt.MouseButton.NoButton,
        Qt.MouseButton.LeftButton,
        modifiers,
    )
    QApplication.sendEvent(port, event)


@pytest.fixture
def on_ladder(qtbot: QtBot, qapp: QApplication, tmp_path: Path) -> Iterator[Callable[[str], Person]]:
    """Makes somebody whose hanging day is that of a sample wall; in light colours, 100 % text."""
    found = qapp.findChild(Theme)
    look = found if isinstance(found, Theme) else Theme(qapp, "light")
    qapp.setStyle("Fusion")
    look.choose("light")
    look.set_text_percent(100)
    made: list[Person] = []

    def make(sample: str) -> Person:
        made.append(Person(qtbot, tmp_path, sample, Answers))
        return made[-1]

    yield make
    for person in made:
        person.leaves_the_program()
    look.choose("light")
    look.set_text_percent(100)


@pytest.fixture
def sofa(on_ladder: Callable[[str], Person]) -> Person:
    """At a wall of strips: six pieces, eighteen pairs."""
    return on_ladder("sofa-wall")


@pytest.fixture
def stair(on_ladder: Callable[[str], Person]) -> Person:
    """At a wall of nails: five pieces, seven holes."""
    return on_ladder("stair-wall")
