"""The main window: menus and tools, the piece list, the room, the card, the findings."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from functools import partial
from pathlib import Path

from PySide6.QtCore import QEvent, Qt, QTimer
from PySide6.QtGui import QCloseEvent, QResizeEvent, QShowEvent
from PySide6.QtWidgets import (
    QMainWindow,
    QSplitter,
    QVBoxLayout,
    QWidget,
)

from composer.desktop import icons
from composer.desktop.actions import make_actions
from composer.desktop.arrangements.desk import ArrangeDesk
from composer.desktop.cards.card_panel import CardPanel
from composer.desktop.change.desk import ChangeDesk
from composer.desktop.commands import Commands
from composer.desktop.cropping.desk import CropDesk
from composer.desktop.files import Files, empty_project
from composer.desktop.findings_panel import FindingsPanel
from composer.desktop.intake import Intake
from composer.desktop.keeping import Keeping
from composer.desktop.money.desk import MoneyDesk
from composer.desktop.notice_bar import NoticeBar
from composer.desktop.open_project import Change, OpenProject
from composer.desktop.panel_widths import PanelWidths
from composer.desktop.pictures.desk import PictureDesk
from composer.desktop.pictures.watch import PictureWatch
from composer.desktop.pictures_shown import PicturesShown
from composer.desktop.piece_list import PieceList
from composer.desktop.printing.desk import PaperDesk
from composer.desktop.recovery import Recovery
from composer.desktop.room.rulers import RoomPanel
from composer.desktop.room.scene import RoomScene
from composer.desktop.room.view import RoomView
from composer.desktop.selection import Selection
from composer.desktop.settings import Settings
from composer.desktop.shown_wall import ShownWall
from composer.desktop.theme import SchemeChoice, theme
from composer.desktop.toolbar import ToolBar
from composer.desktop.wall_commands import WallCommands
from composer.desktop.wall_question import WallQuestion
from composer.desktop.window_menus import Menus
from composer.model import Finding, Key, Project
from composer.texts import say

HINT_MS = 8000


class MainWindow(QMainWindow):
    """Everything about one open project."""

    def __init__(self, settings: Settings, project: Project | None = None, path: Path | None = None) -> None:
        super().__init__()
        self.settings = settings
        self._painted = False
        self.opened = OpenProject(project or empty_project(), path, self)
        self.selection = Selection(self)
        self.room = RoomScene(self.opened, self.selection, self)
        self.view = RoomView(self.room)
        self.panel = RoomPanel(self.view)
        self.list = PieceList(self.opened, self.selection)
        self.card = CardPanel(self.opened, self.selection, self._wall_shown)
        self.findings = FindingsPanel(self.opened)
        self.room.findings_now = self._findings_now
        self.files = Files(self)
        self.commands = Commands(self)
        self.walls = WallCommands(self)
        self.intake = Intake(self)
        self.money = MoneyDesk(self)
        self.change = ChangeDesk(self)
        self.arranging = ArrangeDesk(self)
        self.pictures = PicturesShown(self.opened, parent=self)
        self.room.picture_of = self.list.model.picture_of = self.card.picture_of = self.pictures.of
        self.picture_desk = PictureDesk(self)
        self.picture_watch = PictureWatch(self.opened, self)
        self.findings.missing = self.card.file_state = self.picture_watch.state
        self.cropping = CropDesk(self)
        self.pictures.ready.connect(self.room.show_pictures)
        self.pictures.ready.connect(self.list.show_pictures)
        self.pictures.ready.connect(self.card.show_again)
        self.recovery = Recovery(self.opened, settings.folder / "recovery", self)
        self.notices = NoticeBar()
        self.keeping = Keeping(self, self.notices)
        self.widths = PanelWidths(self)
        self.paper = PaperDesk(self)
        self.actions_by_name = make_actions(self, self._method)
        self._hint_timer = QTimer(self)
        self._hint_timer.setSingleShot(True)
        self._hint_timer.setInterval(HINT_MS)
        self._hint_timer.timeout.connect(self._clear_hint)
        self.menus = Menus(self)
        self.toolbar = ToolBar(self.actions_by_name)
        self.addToolBar(self.toolbar)
        self.wall_choice, self.arrangement_choice = self.toolbar.wall_choice, self.toolbar.arrangement_choice
        self.walls_shown = ShownWall(self)
        self._build_centre()
        self.question = WallQuestion(self)
        self._connect()
        self.setMinimumSize(760, 480)
        self.resize(1440, 900)
        self._on_theme()
        self.walls_shown.fill_choices()
        self._on_file()
        self.commands.update_rules()

    # Building ------------------------------------------------------------------------------------

    def _method(self, name: str) -> Callable[[], object]:
        owners = (self.commands, self.paper, self.walls, self.files, self.intake, self.picture_desk, self.cropping)
        for owner in (*owners, self.money, self.change, self.arranging, self.widths):
            method = getattr(owner, name, None)
            if method is not None:
                return partial(_without_argument, method)
        raise AttributeError(name)

    def _build_centre(self) -> None:
        self.across = QSplitter(Qt.Orientation.Horizontal)
        self.across.setHandleWidth(1)
        self.across.setChildrenCollapsible(False)
        for part in (self.list, self.panel, self.card):
            self.across.addWidget(part)
        self.across.setStretchFactor(1, 1)
        middle = QWidget()
        column = QVBoxLayout(middle)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(0)
        column.addWidget(self.notices)
        column.addWidget(self.across, 1)
        column.addWidget(self.findings)
        self.setCentralWidget(middle)

    def _connect(self) -> None:
        opened = self.opened
        # The order of listeners is fixed: (the card, which hears by itself,) room, list, findings.
        opened.project_changed.connect(self.room.on_change)
        opened.project_changed.connect(self.view.on_change)
        opened.project_changed.connect(self.list.on_change)
        opened.project_changed.connect(self.findings.on_change)
        opened.project_changed.connect(self.cropping.on_project)
        opened.project_changed.connect(self._on_change)
        opened.project_changed.connect(self.arranging.on_project)
        opened.file_changed.connect(self._on_file)
        opened.stack.cleanChanged.connect(self._on_clean)
        opened.stack.indexChanged.connect(self._on_index)
        self.selection.changed.connect(self._on_selection)
        self.findings.go_to.connect(self.show_keys)
        self.findings.go_to.connect(self.card.on_finding)
        self.findings.levels_changed.connect(self._on_levels)
        self.findings.fit_wanted.connect(self.view.fit)
        self.findings.life_size_wanted.connect(self.view.one_to_one)
        self.findings.closer_wanted.connect(self.commands.zoom_in)
        self.findings.farther_wanted.connect(self.commands.zoom_out)
        self.picture_watch.changed.connect(self._on_files)
        self.card.wanted.connect(self._on_wanted)
        self.card.drafted.connect(self.room.show_draft)
        self.card.sample_wanted.connect(self.files.open_sample)
        self.card.open_wanted.connect(self.files.open)
        self.list.add_wanted.connect(self.ask_piece)
        self.list.paste_wanted.connect(self.intake.paste_rows)
        self.view.painted.connect(self._on_painted)
        self.view.hint.connect(self.say_hint)
        self.view.menu_wanted.connect(self.menus.show_at)
        self.card.pointed.connect(self.room.point_to)
        self.view.scale_changed.connect(self._on_scale)
        theme().changed.connect(self._on_theme)

    # What is told --------------------------------------------------------------------------------

    def _on_change(self, before: Project, after: Project, change: Change) -> None:
        self.selection.prune(after)
        if change.walls or change.arrangement or change.fields:
            self.walls_shown.fill_choices()

    def _on_index(self, _index: int) -> None:
        self.commands.update_rules()
        self._on_clean()

    def _on_selection(self) -> None:
        self.commands.update_rules()
        self.menus.update_rules()
        if self.selection.obstacles and not self.selection.pieces:
            from composer.desktop.cards.wall_card import WallCard

            card = self.card.card
            if isinstance(card, WallCard):
                card.sections["obstacles"].set_open(True)
        chosen = self.selection.pieces
        if len(chosen) == 1 and self.isActiveWindow() and not self.view.hasFocus():
            self.walls_shown.of_piece(chosen[0])

    def _findings_now(self) -> tuple[Finding, ...]:
        return self.findings.findings

    def _on_files(self) -> None:
        """A picture's file is found missing, changed or unreadable, or is there again."""
        self.findings.check_soon()
        self.card.show_again()

    def _on_wanted(self, name: str) -> None:
        """A card asks for one of the actions."""
        self.actions_by_name[name].trigger()

    def _on_levels(self, levels: dict[Key, str]) -> None:
        self.room.set_levels(levels)
        self.list.set_levels(levels)

    def _on_scale(self, _scale: float) -> None:
        self.findings.scale.setText(self.view.scale_words())

    def _on_file(self) -> None:
        self.setWindowFilePath(str(self.opened.path) if self.opened.path else "")
        self._on_clean()

    def _on_clean(self, _clean: bool = True) -> None:
        name = self.document_name()
        if self.files.read_only:
            name = say("{name} (read-only)", name=name)
        self.setWindowTitle(f"{name}[*] – Wallwright")
        self.setWindowModified(not self.opened.is_clean)

    def _on_theme(self) -> None:
        self.toolbar.on_theme(everywhere=self._painted)
        self.widths.on_theme()
        self.findings.scale.setText(self.view.scale_words())

    def _on_painted(self) -> None:
        """The window is up; what could wait is loaded now."""
        self.findings.start()
        self.money.start()
        self.list.refresh()
        self.change.start()
        self.question.start()
        icons.draw_all_sizes()
        self._painted = True
        self.pictures.start()
        self.toolbar.set_icons(everywhere=True)

    # What is done --------------------------------------------------------------------------------

    @property
    def is_up(self) -> bool:
        """Whether it has been painted and what could wait for that has begun."""
        return self._painted

    def document_name(self) -> str:
        """The file's name, or the project's title, or that it has none."""
        if self.opened.path is not None:
            return self.opened.path.name
        return self.opened.project.title or say("Untitled")

    def project_folder(self) -> Path:
        """Where the project's relative paths start."""
        return self.opened.path.parent if self.opened.path is not None else Path.cwd()

    def say_hint(self, words: str, *, stays: bool = False) -> None:
        """One sentence in the status line, for a while or until the next one."""
        self.findings.hint.setText(words)
        if words and not stays and not self.view.tool.carrying:
            self._hint_timer.start()
        else:
            self._hint_timer.stop()

    def _clear_hint(self) -> None:
        self.findings.hint.setText("")

    def show_keys(self, keys: Iterable[Key]) -> None:
        """Selects pieces and brings them into view, changing the wall where needed."""
        self.walls_shown.go_to(keys)

    def show_touched(self, keys: frozenset[Key]) -> None:
        """After undo or redo: what it was about."""
        self.walls_shown.go_to(keys)

    def show_wall(self, key: Key) -> None:
        """Shows another wall, whole."""
        self.walls_shown.show(key)

    def _wall_shown(self) -> Key:
        return self.room.wall_key

    def ask_piece(self) -> None:
        """The form of a new frame, in the place of the card."""
        self.selection.clear()
        self.widths.open_card()
        self.card.ask_for_frame()

    def set_text_percent(self, percent: int) -> None:
        """Text size, remembered."""
        self.settings.text_percent = percent
        theme().set_text_percent(self.settings.text_percent)

    def choose_scheme(self, choice: SchemeChoice) -> None:
        """Light, dark or as the system, remembered."""
        self.settings.scheme = choice
        theme().choose(choice)

    # Window --------------------------------------------------------------------------------------

    def showEvent(self, event: QShowEvent) -> None:
        """Panels as they were last on such a screen."""
        super().showEvent(event)
        self.widths.first()

    def resizeEvent(self, event: QResizeEvent) -> None:
        """A small window folds what it has no room for."""
        super().resizeEvent(event)
        if self.isVisible():
            self.widths.fit()

    def changeEvent(self, event: QEvent) -> None:
        """Coming back to the window: pictures may have come or gone meanwhile."""
        super().changeEvent(event)
        if event.type() == QEvent.Type.ActivationChange and self._painted and self.isActiveWindow():
            self.findings.check_soon()

    def closeEvent(self, event: QCloseEvent) -> None:
        """Asks about what is not saved."""
        self.view.tool.cancel()
        if not self.files.may_leave():
            event.ignore()
            return
        self.findings.stop()
        self._hint_timer.stop()
        self.widths.keep()
        self.settings.window_geometry = self.saveGeometry()
        self.settings.write()
        self.keeping.watch.stop()
        self.cropping.stop()
        self.money.stop()
        self.change.stop()
        self.arranging.stop()
        self.picture_desk.stop()
        self.picture_watch.stop()
        self.pictures.stop()
        self.recovery.discard()
        self.files.release()
        event.accept()


def _without_argument(method: Callable[[], object], _checked: bool = False) -> None:
    method()
