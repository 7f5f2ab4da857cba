"""Ten minutes of random but sensible use of the window: nothing said by Qt, nothing raised, nothing left behind.

python tests/soak/ten_minutes.py                 ten minutes
python tests/soak/ten_minutes.py --seconds 20    as long as that
python tests/soak/ten_minutes.py --seed 7        the same use again

Moves by the real path of the pointer, keys, fields, actions of the menus, undo and redo, save, reopen,
window sizes, scheme and text size, pasted rows, printing window, history and manual, hanging day. At the end the document
must equal a replay of its edits on the project it was opened with.
"""

from __future__ import annotations

import argparse
import os
import random
import sys
import tempfile
import threading
import time
import traceback
from collections import Counter
from collections.abc import Callable
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parent.parent.parent
sys.path.insert(0, str(ROOT))
os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")

from msgspec.structs import replace  # noqa: E402
from PySide6.QtCore import (  # noqa: E402
    QEvent,
    QMessageLogContext,
    QPoint,
    QPointF,
    Qt,
    QThreadPool,
    QTimer,
    QtMsgType,
    qInstallMessageHandler,
)
from PySide6.QtGui import QMouseEvent  # noqa: E402
from PySide6.QtTest import QTest  # noqa: E402
from PySide6.QtWidgets import QApplication, QDialog, QWidget  # noqa: E402

from composer.desktop.cards.card import Head  # noqa: E402
from composer.desktop.field_kinds import CheckField, ChoiceField, LengthField, PositionField, TextField  # noqa: E402
from composer.desktop.fields import EntryField  # noqa: E402
from composer.desktop.main_window import MainWindow  # noqa: E402
from composer.desktop.settings import Settings  # noqa: E402
from composer.desktop.theme import Theme  # noqa: E402
from composer.editing.edits import Edit  # noqa: E402
from composer.model import Project  # noqa: E402
from composer.projectfile import store  # noqa: E402
from tests.soak.answers import Answers  # noqa: E402
from tests.soak.placing import place_picture  # noqa: E402

HARMLESS = ("This plugin does not support propagateSizeHints", "This plugin does not support raise")
"""Said by the offscreen platform, which has no window manager."""

LONG_AGO = datetime(2026, 4, 18, 14, 0, tzinfo=UTC)
LADDER_KEYS = (
    *[Qt.Key.Key_Space] * 8, Qt.Key.Key_Right, Qt.Key.Key_Left, Qt.Key.Key_Backspace, Qt.Key.Key_R, Qt.Key.Key_H,
    Qt.Key.Key_W, Qt.Key.Key_O, Qt.Key.Key_Escape,
)  # fmt: skip

MOST_PIECES = 40
ACTIONS = (
    "undo", "undo", "redo", "select_all", "select_none", "duplicate", "take_down", "turn", "lock", "swap", "align_left",
    "align_centre", "align_right", "align_top", "align_middle", "align_bottom", "space_across", "space_up",
    "gap_across", "gap_up", "zoom_in", "zoom_out", "zoom_fit", "toggle_findings", "add_piece", "delete",
)  # fmt: skip


class Replay:
    """The edits of the open document, kept as the history keeps them, to be run again from the start."""

    def __init__(self, window: MainWindow) -> None:
        self._opened = window.opened
        self._base = window.opened.project
        self._steps: list[list[Edit]] = []
        self._apply = window.opened.apply
        self._open = window.opened.open
        self.count = 0
        window.opened.apply = self.apply  # type: ignore[method-assign]
        window.opened.open = self.open  # type: ignore[method-assign]

    def apply(self, edit: Edit) -> bool:
        before = self._opened.stack.index()
        changed = self._apply(edit)
        if not changed:
            return False
        self.count += 1
        after = self._opened.stack.index()
        del self._steps[before:]
        if after > before:
            self._steps.append([edit])
        elif after == before:
            self._steps[after - 1].append(edit)  # merged into the step before
        else:
            self._steps.pop()  # led back to where it began
        return True

    def open(self, project: Project, path: Path | None, **more: Any) -> None:
        self._open(project, path, **more)
        self._base, self._steps = project, []

    def again(self) -> Project:
        project = self._base
        for step in self._steps[: self._opened.stack.index()]:
            for edit in step:
                project = edit.run(project)
        return project


def _pathless(project: Project) -> Project:
    """Without the pictures' paths: saving into another folder counts them anew in all of history."""
    return replace(project, pictures=tuple(replace(picture, path=picture.key) for picture in project.pictures))


class Use:
    """One session of use."""

    def __init__(self, window: MainWindow, answers: Answers, rng: random.Random) -> None:
        self.window, self.answers, self.rng = window, answers, rng
        self.done: Counter[str] = Counter()
        self._clock = 0.0
        self._ways: list[tuple[int, Callable[[], None]]] = [
            (30, self.drag), (14, self.nudge), (10, self.by_keyboard), (16, self.act), (16, self.type), (6, self.pick),
            (4, self.click_list), (4, self.section), (3, self.resize), (2, self.save), (1, self.reopen), (1, self.look),
            (1, self.paste), (1, self.windows), (2, self.ladder), (3, self.click_finding), (1, self.new_frame), (3, self.preview_keys),
            (4, self.place),
        ]  # fmt: skip

    def step(self) -> None:
        """One thing a person might do."""
        ways = [way for _, way in self._ways]
        way = self.rng.choices(ways, [weight for weight, _ in self._ways])[0]
        self.done[way.__name__] += 1
        way()
        QApplication.processEvents()

    # Moving -------------------------------------------------------------------------------------

    def _any_key(self) -> str | None:
        keys = list(self.window.room.items_by_key)
        return self.rng.choice(keys) if keys else None

    def drag(self) -> None:
        key = self._any_key()
        if key is None:
            return
        view, port = self.window.view, self.window.view.viewport()
        start = self.window.room.items_by_key[key].box.centre
        wall = self.window.room.wall
        if wall is None:
            return
        end = (self.rng.uniform(-100, wall.width.mm + 100), self.rng.uniform(-250, wall.height.mm + 50))
        first, last = (view.mapFromScene(QPointF(x, -y)) for x, y in (start, end))
        if not port.rect().contains(first):
            return
        held = self.rng.choice([Qt.KeyboardModifier.NoModifier] * 3 + [Qt.KeyboardModifier.AltModifier])
        QTest.mousePress(port, Qt.MouseButton.LeftButton, held, first)
        for step in range(1, self.rng.randint(2, 9)):
            at = (QPointF(first) + (QPointF(last) - QPointF(first)) * step / 8).toPoint()
            _move(port, at, held)
            QApplication.processEvents()
        if self.rng.random() < 0.1:
            QTest.keyClick(view, Qt.Key.Key_Escape)
        QTest.mouseRelease(port, Qt.MouseButton.LeftButton, held, last)

    def nudge(self) -> None:
        self.window.view.setFocus()
        for _ in range(self.rng.randint(1, 6)):
            key = self.rng.choice([Qt.Key.Key_Left, Qt.Key.Key_Right, Qt.Key.Key_Up, Qt.Key.Key_Down])
            held = self.rng.choice([Qt.KeyboardModifier.NoModifier, Qt.KeyboardModifier.ShiftModifier])
            QTest.keyClick(self.window.view, key, held)

    def by_keyboard(self) -> None:
        view = self.window.view
        view.setFocus()
        if self.window.selection.pieces:
            QTest.keyClick(view, Qt.Key.Key_Space)
            for _ in range(self.rng.randint(1, 5)):
                QTest.keyClick(view, self.rng.choice([Qt.Key.Key_Left, Qt.Key.Key_Up, Qt.Key.Key_Right]))
            QTest.keyClick(view, self.rng.choice([Qt.Key.Key_Return, Qt.Key.Key_Escape]))
        if view.tool.carrying:
            QTest.keyClick(view, Qt.Key.Key_Escape)

    def place(self) -> None:
        place_picture(self.window, self.rng)

    def preview_keys(self) -> None:
        QTest.keyClick(self.window.view, Qt.Key.Key_Tab)

    # Choosing and acting ------------------------------------------------------------------------

    def pick(self) -> None:
        keys = [piece.key for piece in self.window.opened.project.pieces]
        self.window.selection.set(self.rng.sample(keys, min(len(keys), self.rng.randint(0, 4))))

    def act(self) -> None:
        name = self.rng.choice(ACTIONS)
        pieces = len(self.window.opened.project.pieces)
        if name == "duplicate" and pieces > MOST_PIECES:
            name = "delete"
        if name == "delete" and (pieces < 6 or len(self.window.selection.pieces) > 3):
            return
        action = self.window.actions_by_name[name]
        if action.isEnabled():
            action.trigger()

    def click_list(self) -> None:
        rows = self.window.list.rows
        model = rows.model()
        if model.rowCount():
            box = rows.visualRect(model.index(self.rng.randrange(model.rowCount()), 0))
            QTest.mouseClick(rows.viewport(), Qt.MouseButton.LeftButton, pos=box.center())
        self.rng.choice(self.window.list.sorts.buttons()).click()
        self.rng.choice(self.window.list.tabs.buttons()).click()

    def click_finding(self) -> None:
        self.window.findings.set_open(is_open=True)
        rows = self.window.findings.rows
        if rows.count():
            item = rows.item(self.rng.randrange(rows.count()))
            rows.scrollToItem(item)
            QTest.mouseClick(rows.viewport(), Qt.MouseButton.LeftButton, pos=rows.visualItemRect(item).center())

    # Cards --------------------------------------------------------------------------------------

    def section(self) -> None:
        heads = [head for head in self.window.card.findChildren(Head) if head.isVisible()]
        if heads:
            self.rng.choice(heads).click()

    def type(self) -> None:
        fields = [
            field
            for field in self.window.card.findChildren(QWidget)
            if isinstance(field, (EntryField, ChoiceField, CheckField)) and field.isVisible() and field.isEnabled()
        ]
        if not fields:
            return
        field = self.rng.choice(fields)
        if isinstance(field, ChoiceField):
            if field.count():
                row = self.rng.randrange(field.count())
                field.setCurrentIndex(row)
                field.activated.emit(row)
        elif isinstance(field, CheckField):
            field.click()
        else:
            field.setFocus()
            field.lineEdit().selectAll()
            QTest.keyClicks(field.lineEdit(), self._text_for(field))
            if self.rng.random() < 0.15:
                field.stepBy(self.rng.choice([-1, 1]))
            QTest.keyClick(field, self.rng.choice([Qt.Key.Key_Return, Qt.Key.Key_Tab, Qt.Key.Key_Escape]))

    def _text_for(self, field: EntryField) -> str:
        if isinstance(field, LengthField):
            texts = (
                f"{self.rng.randint(1, 800)}",
                f"{self.rng.randint(1, 60)} cm",
                "16 1/4 in",
                "61 5",
                "",
                "nonsense",
            )
            return self.rng.choice(texts)
        if isinstance(field, PositionField):
            return str(self.rng.randint(0, 3000))
        if isinstance(field, TextField):
            return self.rng.choice(["Boats", "Überraschung", "a very long name for a very small frame", ""])
        return self.rng.choice(["1.2 kg", "12", "3.50", "", "x"])

    def new_frame(self) -> None:
        if len(self.window.opened.project.pieces) > MOST_PIECES:
            return
        self.window.ask_piece()
        card: Any = self.window.card.card
        for field, text in ((card.width_field, "30 cm"), (card.height_field, "40 cm")):
            field.setFocus()
            QTest.keyClicks(field.lineEdit(), text)
            QTest.keyClick(field, Qt.Key.Key_Return)
        card._on_add(again=self.rng.random() < 0.3)

    # Files and windows ---------------------------------------------------------------------------

    def save(self) -> None:
        if self.window.files.save():
            found = store.load(self.answers.path).project
            assert found == self.window.opened.project, "what was saved is not what is open"

    def reopen(self) -> None:
        if not self.answers.path.is_file():
            return
        assert self.window.files.save()
        before = self.window.opened.project
        assert self.window.files.open_path(self.answers.path)
        assert self.window.opened.project == before, "what was read is not what was saved"

    def resize(self) -> None:
        self.window.resize(self.rng.randint(760, 1900), self.rng.randint(480, 1100))

    def look(self) -> None:
        self.rng.choice((self.window.commands.look_dark, self.window.commands.look_light))()
        self.window.set_text_percent(self.rng.choice((100, 100, 125, 150, 200)))

    def paste(self) -> None:
        if len(self.window.opened.project.pieces) > MOST_PIECES:
            return
        self.window.intake.look_at("name\twidth\theight\nPasted\t30\t40\nWrong\twide\t40")
        self._finish_dialogs(lambda dialog: dialog.go.click())

    def windows(self) -> None:
        name = self.rng.choice(("templates", "history", "manual", "about"))
        self.window.actions_by_name[name].trigger()
        QApplication.processEvents()
        self._finish_dialogs(_look_at_paper)
        for dialog in self.window.findChildren(QDialog):
            dialog.close()

    def ladder(self) -> None:
        """Hanging day, with a clock that leaps on; some of its steps are taken back or undone afterwards."""
        desk = self.window.commands.day
        desk.now, desk.sound = lambda: LONG_AGO + timedelta(seconds=self._clock), lambda: None
        screen = desk.open()
        for _ in range(self.rng.randint(1, 25)):
            self._clock += self.rng.choice((1, 31, 600, 3700))
            screen.session.tick()
            if screen.panel is not None:
                QTest.keyClick(screen, self.rng.choice([Qt.Key.Key_Escape, Qt.Key.Key_2, Qt.Key.Key_5]))
            else:
                QTest.keyClick(screen, self.rng.choice(LADDER_KEYS))
            if desk.screen is None:
                return
        screen.close()

    def _finish_dialogs(self, use: Callable[[Any], None]) -> None:
        while self.answers.dialogs:
            dialog = self.answers.dialogs.pop()
            dialog.show()
            QApplication.processEvents()
            use(dialog)
            dialog.close()
            dialog.deleteLater()


def _look_at_paper(dialog: Any) -> None:
    if hasattr(dialog, "panel"):
        dialog.wait()
        QApplication.processEvents()
        dialog.next.click()


def _move(port: QWidget, at: QPoint, held: Qt.KeyboardModifier) -> None:
    event = QMouseEvent(
        QEvent.Type.MouseMove,
        QPointF(at),
        QPointF(port.mapToGlobal(at)),
        Qt.MouseButton.NoButton,
        Qt.MouseButton.LeftButton,
        held,
    )
    QApplication.sendEvent(port, event)


def run(seconds: float, seed: int, tell: Callable[[str], None] = print) -> list[str]:
    """Uses the window for so long; what was wrong, one sentence each."""
    problems: list[str] = []
    instance = QApplication.instance()
    application = instance if isinstance(instance, QApplication) else QApplication([])
    application.setStyle("Fusion")

    def listen(kind: QtMsgType, context: QMessageLogContext, message: str) -> None:
        if kind != QtMsgType.QtDebugMsg and not message.startswith(HARMLESS):
            problems.append(f"Qt said: {message}")

    def caught(kind: type[BaseException], error: BaseException, trace: Any) -> None:
        problems.append("".join(traceback.format_exception(kind, error, trace)))

    former_hook, former_handler = sys.excepthook, qInstallMessageHandler(listen)
    sys.excepthook = caught
    threads = {thread.ident for thread in threading.enumerate()}
    try:
        with tempfile.TemporaryDirectory() as scratch:
            problems += _session(application, Path(scratch), seconds, seed, tell)
        left = [thread.name for thread in threading.enumerate() if thread.ident not in threads]
        if left:
            problems.append(f"threads left: {left}")
        if QThreadPool.globalInstance().activeThreadCount():
            problems.append("the global pool is still at work")
    finally:
        sys.excepthook = former_hook
        qInstallMessageHandler(former_handler)
    return problems


def _session(
    application: QApplication, folder: Path, seconds: float, seed: int, tell: Callable[[str], None]
) -> list[str]:
    problems: list[str] = []
    rng = random.Random(seed)
    found = application.findChild(Theme)
    theme = found if isinstance(found, Theme) else Theme(application, "light")
    theme.choose("light")
    theme.set_text_percent(100)
    window = MainWindow(Settings(folder / "settings"))
    answers = Answers(folder)
    window.files.ask = answers  # type: ignore[assignment]
    window.opened.open(store.load(ROOT / "samples" / "sofa-wall.wallwright").project, None)
    replay = Replay(window)
    window.resize(1440, 900)
    window.show()
    QApplication.processEvents()
    use = Use(window, answers, rng)
    until, steps = time.monotonic() + seconds, 0
    while time.monotonic() < until:
        try:
            use.step()
        except Exception:
            problems.append(f"step {steps}: {traceback.format_exc()}")
            if len(problems) > 20:
                break
        steps += 1
    if window.view.tool.carrying:
        window.view.tool.cancel()
    if _pathless(replay.again()) != _pathless(window.opened.project):
        problems.append("the document is not what a replay of its edits gives")
    tell(f"{steps} steps, {replay.count} edits: " + ", ".join(f"{n} {count}" for n, count in use.done.most_common()))
    window.files.save()
    if not window.close():
        problems.append("the window did not close")
    problems += _left_behind(window, folder, answers)
    window.deleteLater()
    application.sendPostedEvents(None, QEvent.Type.DeferredDelete.value)
    QApplication.processEvents()
    if others := [type(widget).__name__ for widget in QApplication.topLevelWidgets() if widget.isVisible()]:
        problems.append(f"windows left: {others}")
    theme.choose("light")
    theme.set_text_percent(100)
    return problems


def _left_behind(window: MainWindow, folder: Path, answers: Answers) -> list[str]:
    problems = []
    active = [timer for timer in window.findChildren(QTimer) if timer.isActive()]
    if active:
        problems.append(f"{len(active)} timers still run, of {[type(timer.parent()).__name__ for timer in active]}")
    name = answers.path.name
    # The lock's own file stays by design: removing it would let two programs hold two files of one name.
    allowed = {name, f"{name}.bak", f".{name}.lock", "settings"}
    if strangers := sorted({path.name for path in folder.iterdir()} - allowed):
        problems.append(f"files left: {strangers}")
    if strangers := sorted(path.name for path in (folder / "settings").glob("recovery/*")):
        problems.append(f"recovery copies left: {strangers}")
    return problems


def main() -> int:
    """Says what was wrong; 0 when nothing was."""
    parser = argparse.ArgumentParser(description="Ten minutes of random use of the window.")
    parser.add_argument("--seconds", type=float, default=600)
    parser.add_argument("--seed", type=int, default=random.randrange(10**6))
    asked = parser.parse_args()
    print(f"seed {asked.seed}, {asked.seconds:g} seconds", flush=True)
    problems = run(asked.seconds, asked.seed)
    for problem in problems:
        print(problem)
    print("nothing wrong" if not problems else f"{len(problems)} things wrong")
    return 1 if problems else 0


if __name__ == "__main__":
    sys.exit(main())
