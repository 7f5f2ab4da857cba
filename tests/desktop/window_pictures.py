"""Pictures of the windows in the states a person meets them in, to be looked at beside the design.

Each is made by the program itself from a sample wall; ``take`` writes all of them, the tests check each.
"""

from __future__ import annotations

import os
import tempfile
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parent.parent.parent
os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from PySide6.QtCore import QEvent, QPoint, QPointF, Qt  # noqa: E402
from PySide6.QtGui import QMouseEvent  # noqa: E402
from PySide6.QtTest import QTest  # noqa: E402
from PySide6.QtWidgets import QApplication, QDialog, QWidget  # noqa: E402

from composer.desktop.main_window import MainWindow  # noqa: E402
from composer.desktop.printing.window import PrintingWindow  # noqa: E402
from composer.desktop.settings import Settings  # noqa: E402
from composer.desktop.theme import SchemeChoice, Theme  # noqa: E402
from composer.editing.placing import Spot, put  # noqa: E402
from composer.editing.project_edits import change_project_fields  # noqa: E402
from composer.projectfile import store  # noqa: E402
from composer.projectfile.picture_links import counted_from  # noqa: E402
from tests.desktop.arranging_pictures import compared, preview, trued  # noqa: E402
from tests.desktop.ladder_pictures import LADDER, LARGEST  # noqa: E402
from tests.desktop.money_pictures import OTHERS, WINDOWS  # noqa: E402
from tests.desktop.print_pictures import CRAMPED, ONCE, STATES  # noqa: E402
from tests.desktop.settling import settle  # noqa: E402


@dataclass
class Scene:
    """A window in a state, and whatever has to be closed with it."""

    main: MainWindow
    shown: QWidget
    others: list[QDialog] = field(default_factory=list)


Make = Callable[[MainWindow], QWidget | None]


@dataclass(frozen=True)
class Picture:
    """One picture: how the window is set up, and what is done in it."""

    name: str
    make: Make
    sample: str = "sofa-wall"
    scheme: SchemeChoice = "light"
    size: tuple[int, int] = (1440, 900)
    percent: int = 100


def _keys(window: MainWindow, *numbers: int) -> list[str]:
    known = window.opened.project.piece_by_number
    return [known[number].key for number in numbers]


def _one_selected(window: MainWindow) -> None:
    window.selection.set(_keys(window, 4))
    window.card.open_section("hanging")
    window.findings.set_open(is_open=True)


def _overlap(window: MainWindow) -> None:
    project = window.opened.project
    key, other = _keys(window, 7, 4)
    place = project.placement_by_piece[other]
    window.opened.apply(put(project, {key: Spot(place.wall, place.left + 300, place.bottom - 90)}))
    window.findings.check()
    window.findings.set_open(is_open=True)
    window.selection.set([key])


def _dragging(window: MainWindow) -> None:
    key = _keys(window, 7)[0]
    view = window.view
    neighbour = window.opened.project.placement_by_piece[_keys(window, 5)[0]]
    wide = window.opened.project.piece_by_key[_keys(window, 5)[0]].size_mm()[0]
    start = window.room.items_by_key[key].box.centre
    size = window.opened.project.piece_by_key[key].size_mm()
    end = (neighbour.left + wide + 52 + size[0] / 2, neighbour.bottom + 4 + size[1] / 2)
    first, last = (view.mapFromScene(QPointF(x, -y)) for x, y in (start, end))
    QTest.mousePress(view.viewport(), Qt.MouseButton.LeftButton, pos=first)
    for step in range(1, 9):
        at = (QPointF(first) + (QPointF(last) - QPointF(first)) * step / 8).toPoint()
        _move(view.viewport(), at)
        QApplication.processEvents()
    QTest.qWait(120)  # chalk lines follow at the screen's rate


def _move(port: QWidget, at: QPoint) -> None:
    event = QMouseEvent(
        QEvent.Type.MouseMove,
        QPointF(at),
        QPointF(port.mapToGlobal(at)),
        Qt.MouseButton.NoButton,
        Qt.MouseButton.LeftButton,
        Qt.KeyboardModifier.NoModifier,
    )
    QApplication.sendEvent(port, event)


def _type(widget: Any, text: str) -> None:
    widget.setFocus()
    widget.lineEdit().setText(text)
    widget.lineEdit().textEdited.emit(text)


def _hints(window: MainWindow) -> None:
    from composer.desktop.hints import Hints

    Hints(window).show_next()


def _first_frame(window: MainWindow) -> None:
    from composer.desktop.cards.first_frame import WallQuestions

    asked = window.findChild(WallQuestions)
    if asked is not None:
        _type(asked.width_field, "3.2 m")
        _type(asked.height_field, "2.4 m")
        asked.height_field.commit()
        asked._finish()
        QApplication.processEvents()
        window.view.fit()
    window.ask_piece()
    card: Any = window.card.card
    _type(card.width_field, "534")
    card.width_field.commit()
    _type(card.height_field, "41.2 cm")
    card.height_field.commit()
    card.tiles.tiles["wire"].click()
    _type(card.drop, "48")


def _card_open(window: MainWindow) -> None:
    window.selection.set(_keys(window, 4))
    window.widths.show_card()


def _stairs(window: MainWindow) -> None:
    window.selection.set([piece.key for piece in window.opened.project.pieces[:3]])


def _printing(window: MainWindow) -> QWidget:
    chosen = PrintingWindow(window.opened.project, settings=window.settings, parent=window)
    chosen.show()
    chosen.wait()
    for _ in range(4):
        QApplication.processEvents()
    chosen.show_page(2)
    return chosen


ROWS = (
    "Title\tW (cm)\tH (cm)\tHangs by\tRoom\tQty\n"
    "Harbour boats\t40\t50\tstrips\thall\t1\n"
    "Moon\twide\t20.5\twire\tkitchen\t\n"
    "Sketches of a heron\t30\t40\td-rings\thall\t3"
)


def _paste(window: MainWindow) -> QWidget:
    from composer.editing.pasted_rows import understand

    dialog = window.intake.window_for(understand(ROWS))
    dialog.show()
    return dialog


def _history(window: MainWindow) -> QWidget:
    from composer.desktop.history import show_history

    for number in (7, 8):
        window.selection.set(_keys(window, number))
        window.opened.apply(put(window.opened.project, {window.selection.keys[0]: Spot(_wall(window), 300, 1500)}))
    window.opened.apply(change_project_fields("Project: Title", title="Over the sofa, second try"))
    window.opened.stack.undo()
    return show_history(window.opened.stack, window)


def _wall(window: MainWindow) -> str:
    return window.opened.project.walls[0].key


def _read_only(window: MainWindow) -> None:
    words = "“Over the sofa.wallwright” is open in another window (process 4711 on kitchen-laptop)."
    window.files.read_only = True
    window.keeping.show_read_only(words)


def _recovered(window: MainWindow) -> None:
    folder = window.settings.folder / "recovery"
    folder.mkdir(parents=True, exist_ok=True)
    copy = folder / "earlier.wallwright"
    store.save(copy, window.opened.project)
    copy.with_suffix(".json").write_text('{"original": null, "digest": null}')
    window.keeping.offer_recovery()


def _group(window: MainWindow) -> None:
    window.selection.set(_keys(window, 1, 3, 5))


def _frame(window: MainWindow) -> None:
    window.selection.set(_keys(window, 3))
    window.card.open_section("frame")


def _wall_sections(window: MainWindow) -> None:
    window.selection.clear()
    card: Any = window.card.card
    for name in ("outline", "kind", "heights"):
        card.sections[name].set_open(False)
    for name in ("obstacles", "cables", "arrangement", "project"):
        card.sections[name].set_open(True)


def _wrong(window: MainWindow) -> None:
    window.selection.set(_keys(window, 3))
    window.card.open_section("frame")
    QApplication.processEvents()
    card: Any = window.card.card
    field = next(
        one for one in card.findChildren(QWidget) if one.accessibleName() == "Width" and hasattr(one, "commit")
    )
    _type(field, "61 5")
    field.commit()


def _only(*names: str) -> Make:
    """Only these sections of the card open."""

    def make(window: MainWindow) -> None:
        if not window.selection.keys:
            window.selection.set(_keys(window, 1))
        QApplication.processEvents()
        card: Any = window.card.card
        for name, section in card.sections.items():
            section.set_open(name in names)

    return make


def _offers(window: MainWindow) -> None:
    window.selection.set(_keys(window, 4))
    _only("hanging")(window)
    QApplication.processEvents()
    card: Any = window.card.card
    card.verticalScrollBar().setValue(card.verticalScrollBar().maximum())


def _money(window: MainWindow) -> None:
    window.selection.clear()
    QApplication.processEvents()
    card: Any = window.card.card
    for name, section in card.sections.items():
        section.set_open(name == "money")


def _manual(window: MainWindow) -> QWidget:
    from composer.desktop.manual import show_manual

    return show_manual(window)


def _question(window: MainWindow) -> QWidget:
    from composer.desktop.files import save_question

    box = save_question(window, "Over the sofa.wallwright")
    box.show()
    return box


def _about(window: MainWindow) -> QWidget:
    from composer.desktop.manual import about_box

    box = about_box(window)
    box.show()
    return box


def _bands(window: MainWindow) -> None:
    window.opened.apply(change_project_fields("Project: Cable rule", region="uk"))
    window.selection.clear()
    QApplication.processEvents()
    card: Any = window.card.card
    for name, section in card.sections.items():
        section.set_open(name == "cables")


def _figures(window: MainWindow) -> None:
    from composer.desktop.cards.packet_figures import PacketFigures

    _offers(window)
    (figures,) = window.card.findChildren(PacketFigures)
    figures.toggle()
    QApplication.processEvents()
    card: Any = window.card.card
    card.verticalScrollBar().setValue(card.verticalScrollBar().maximum())


def _own_classes(window: MainWindow) -> None:
    from composer.editing.catalogue_edits import own_entry

    window.opened.apply(own_entry("moulding", "bamboo", {"density_kg_m3": 700.0}, name="Bamboo, glued"))
    window.selection.clear()
    QApplication.processEvents()
    card: Any = window.card.card
    for name, section in card.sections.items():
        section.set_open(name == "own-classes")


def _nothing(window: MainWindow) -> None:
    """As it opens."""


PICTURES: tuple[Picture, ...] = (
    Picture("main-light", _one_selected),
    Picture("main-dark", _one_selected, scheme="dark"),
    Picture("small-1280x720", _one_selected, size=(1280, 720)),
    Picture("small-dark", _overlap, size=(1280, 720), scheme="dark"),
    Picture("text-150", _one_selected, percent=150),
    Picture("text-200", _one_selected, percent=200, size=(1920, 1080)),
    Picture("text-200-small", _one_selected, percent=200, size=(1280, 720)),
    Picture("narrow-list-folded", _one_selected, size=(1100, 720)),
    Picture("narrow-card-away", _nothing, size=(960, 640)),
    Picture("narrow-card-open", _card_open, size=(800, 600), scheme="dark"),
    Picture("dragging", _dragging),
    Picture("overlap", _overlap),
    Picture("empty-wall", _nothing, sample="empty-wall"),
    Picture("hints", _hints),
    Picture("first-frame", _first_frame, sample="empty-wall"),
    Picture("stair-wall", _stairs, sample="stair-wall"),
    Picture("inches", _nothing, sample="corridor-inches"),
    Picture("wall-card", _nothing),
    Picture("wall-card-below", _wall_sections),
    Picture("frame-section", _frame),
    Picture("group-card", _group),
    Picture("picture-section", _only("picture")),
    Picture("mat-section", _only("mat"), scheme="dark"),
    Picture("hanging-offers", _offers, sample="corridor-inches"),
    Picture("money-section", _money),
    Picture("wrong-field", _wrong),
    Picture("printing", _printing),
    Picture("printing-dark", _printing, scheme="dark"),
    Picture("printing-small", _printing, size=(1280, 720)),
    Picture("paste-preview", _paste),
    Picture("paste-preview-dark", _paste, scheme="dark"),
    Picture("history", _history),
    Picture("read-only", _read_only),
    Picture("recovery-offer", _recovered),
    Picture("manual", _manual),
    Picture("question-dark", _question, scheme="dark"),
    Picture("about", _about),
    Picture("packet-figures", _figures),
    Picture("packet-figures-inches", _figures, sample="corridor-inches", scheme="dark", percent=150),
    Picture("own-classes", _own_classes),
    Picture("cable-bands", _bands),
    Picture("cable-bands-dark", _bands, scheme="dark", size=(1280, 720)),
    *(Picture(name, make) for name, make in (*STATES, *ONCE)),
    *(Picture(f"{name}-dark", make, scheme="dark") for name, make in STATES),
    *(Picture(f"{name}-small", make, size=(1280, 720)) for name, make in CRAMPED),
    *(Picture(f"{name}-150", make, percent=150) for name, make in CRAMPED),
    Picture("sketches", preview),
    Picture("sketches-dark", preview, scheme="dark"),
    Picture("sketches-small", preview, size=(1280, 720)),
    Picture("sketches-150", preview, percent=150),
    Picture("sketches-inches", preview, sample="corridor-inches", scheme="dark", size=(1280, 720)),
    Picture("sketches-stair", preview, sample="stair-wall"),
    Picture("true-up", trued),
    Picture("true-up-dark", trued, scheme="dark", size=(1280, 720)),
    Picture("true-up-150", trued, percent=150),
    Picture("compared", compared),
    Picture("compared-dark-150", compared, scheme="dark", percent=150),
    *(Picture(f"ladder-{name}", make, sample, size=(1280, 720)) for name, make, sample in LADDER),
    *(Picture(f"ladder-{name}-dark", make, sample, "dark", (1920, 1080)) for name, make, sample in LADDER),
    *(Picture(f"ladder-{name}-150", make, sample, size=(1280, 720), percent=150) for name, make, sample in LADDER),
    *(
        Picture(f"ladder-{name}-200", make, sample, size=(1280, 800), percent=200)
        for name, make, sample in LADDER
        if name in LARGEST
    ),
    *(Picture(name, make, sample) for name, make, sample in (*WINDOWS, *OTHERS)),
    *(Picture(f"{name}-dark", make, sample, "dark") for name, make, sample in (*WINDOWS, *OTHERS[-2:])),
    *(Picture(f"{name}-small", make, sample, size=(1280, 720)) for name, make, sample in WINDOWS),
    *(Picture(f"{name}-150", make, sample, size=(1280, 720), percent=150) for name, make, sample in WINDOWS),
)


@contextmanager
def shown(picture: Picture, application: QApplication, folder: Path) -> Iterator[QWidget]:
    """The window of a picture, ready to be looked at; closed and gone afterwards.

    Args:
        picture: which one.
        application: the running one.
        folder: for settings and recovery copies of this window alone.
    """
    found = application.findChild(Theme)
    theme = found if isinstance(found, Theme) else Theme(application, "light")
    application.setStyle("Fusion")
    theme.choose(picture.scheme)
    theme.set_text_percent(picture.percent)
    main = MainWindow(Settings(folder))
    opened = store.load(ROOT / "samples" / f"{picture.sample}.wallwright")
    main.opened.open(counted_from(opened.project, ROOT / "samples", None), None)
    main.resize(*picture.size)
    main.show()
    settle(main)
    main.view.fit()
    settle(main)
    other = picture.make(main)
    window = other or main
    if isinstance(other, PrintingWindow):
        other.resize(*(picture.size if picture.size != (1440, 900) else (1336, 828)))
    for _ in range(4):
        application.processEvents()
    try:
        yield window
    finally:
        if main.view.tool.carrying:
            main.view.tool.cancel()
        if other is not None:
            other.close()
        main.opened.stack.setClean()
        main.close()
        main.deleteLater()
        application.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
        theme.choose("light")
        theme.set_text_percent(100)


def take(folder: Path) -> Iterator[Path]:
    """Writes every picture, and beside them what the checks say; yields their paths."""
    from tests.desktop.seen import clipped, pale, picture_of, small_targets

    instance = QApplication.instance()
    application = instance if isinstance(instance, QApplication) else QApplication([])
    for picture in PICTURES:
        with tempfile.TemporaryDirectory() as scratch, shown(picture, application, Path(scratch)) as window:
            pixmap, texts = picture_of(window)
            problems = [*clipped(window, texts), *pale(pixmap, texts), *small_targets(window)]
            for problem in problems:
                print(f"{picture.name}: {problem}")
            path = folder / f"{picture.name}.png"
            if not pixmap.save(str(path)):
                raise SystemExit(f"{path} cannot be written")
            yield path
