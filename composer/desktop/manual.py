"""The manual in the program: the text that ships, every action by its table, every catalogue id; and About."""

from __future__ import annotations

from PySide6.QtCore import QModelIndex, QPersistentModelIndex, QRect, QSize, Qt, QUrl
from PySide6.QtGui import (
    QFont,
    QImage,
    QKeySequence,
    QPainter,
    QPalette,
    QTextBlockFormat,
    QTextCharFormat,
    QTextCursor,
    QTextDocument,
    QTextImageFormat,
)
from PySide6.QtWidgets import (
    QDialog,
    QHBoxLayout,
    QListWidget,
    QListWidgetItem,
    QMessageBox,
    QStyle,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTextBrowser,
    QVBoxLayout,
    QWidget,
)

import composer
from composer.catalogue.catalogue import usual
from composer.catalogue.names import name_of, status_words
from composer.desktop import actions
from composer.desktop import field_look as look
from composer.desktop.field_row import PushButton
from composer.desktop.scroll_bars import slim
from composer.desktop.theme import FAMILY, theme
from composer.desktop.window_sizes import open_at
from composer.resources import resource
from composer.texts import say

LICENCES = (
    ("Wallwright", "MIT"),
    ("Qt, PySide6", "LGPL-3.0"),
    ("msgspec", "BSD-3-Clause"),
    ("Pint", "BSD-3-Clause"),
    ("Shapely", "BSD-3-Clause"),
    ("ReportLab", "BSD-3-Clause"),
    ("Pillow", "MIT-CMU"),
    ("fontTools", "MIT"),
    ("filelock", "MIT"),
    ("platformdirs", "MIT"),
    ("Source Sans Pro", "OFL-1.1"),
)
"""What it stands on, each with its licence as the package states it."""


def manual_text() -> str:
    """The whole manual as Markdown."""
    text = resource("help/manual.md").read_text(encoding="utf-8")
    return "\n\n".join([text.rstrip(), _actions(), _catalogue(), _about()])


def _actions() -> str:
    lines = [f"## {say('Every action')}"]
    for menu in actions.MENUS:
        rows = [row for row in actions.TABLE if row.menu == menu]
        if rows:
            lines.append(f"### {say(menu)}")
            lines += [_action(row) for row in rows]
    return "\n".join(lines)


def _action(row: actions.Row) -> str:
    keys = QKeySequence(row.shortcut).toString(QKeySequence.SequenceFormat.NativeText) if row.shortcut != "" else ""
    named = say("**{name}** ({keys})", name=say(row.text), keys=keys) if keys else say("**{name}**", name=say(row.text))
    return say("- {name}: {help}", name=named, help=say(row.help))


def _catalogue() -> str:
    known = usual()
    lines = [f"## {say('Names for the inventory table')}"]
    for title, records in (
        (say("Fixings"), known.fixings),
        (say("Mouldings"), known.mouldings),
        (say("Backings"), known.backings),
    ):
        lines.append(f"### {title}")
        lines += [
            say("- `{id}`: {name}, {status}", id=key, name=name_of(record), status=status_words(record.status))
            for key, record in records.items()
        ]
    return "\n".join(lines)


def _about() -> str:
    return "\n".join(
        [f"## {say('About Wallwright')}", say("Version {version}.", version=composer.__version__), *licences()]
    )


def licences() -> list[str]:
    """One line for each thing it stands on."""
    return [say("- {what}: {licence}", what=what, licence=licence) for what, licence in LICENCES]


class _Pages(QTextBrowser):
    """Finds the manual's pictures among the resources; they are light in either scheme, as paper is."""

    def loadResource(self, kind: int, name: QUrl | str) -> object:
        """A picture by its bare name."""
        file = resource("help") / (name.toString() if isinstance(name, QUrl) else name)
        if kind == QTextDocument.ResourceType.ImageResource.value and file.is_file():
            return QImage.fromData(file.read_bytes())
        return super().loadResource(kind, name)


class _Chapter(QStyledItemDelegate):
    """A chapter's name; wraps, the one being read is semibold on surface-2."""

    def sizeHint(self, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex) -> QSize:
        view = self.parent()
        assert isinstance(view, QListWidget)
        width = max(60, view.viewport().width() - look.px(24))
        high = look.height_of(str(index.data()), 14, width, semibold=True)
        return QSize(60, max(24, high + look.px(10)))

    def paint(
        self, painter: QPainter, option: QStyleOptionViewItem, index: QModelIndex | QPersistentModelIndex
    ) -> None:
        shades, box = look.colours(), QRect(option.rect)
        chosen = bool(option.state & QStyle.StateFlag.State_Selected)
        painter.save()
        painter.fillRect(box, shades.surface_2 if chosen else shades.surface)
        painter.setFont(look.font(14, semibold=chosen))
        painter.setPen(shades.ink)
        flags = int(Qt.AlignmentFlag.AlignVCenter | Qt.TextFlag.TextWordWrap)
        painter.drawText(box.adjusted(look.px(12), 0, -look.px(12), 0), flags, str(index.data()))
        painter.restore()


class Manual(QDialog):
    """The manual in its own window; it may stay open beside the work."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(say("Manual"))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, look.px(8))
        across = QHBoxLayout()
        across.setSpacing(0)
        self.chapters = QListWidget()
        self.chapters.setAccessibleName(say("Chapters"))
        self.chapters.setFrameShape(QListWidget.Shape.NoFrame)
        self.chapters.setItemDelegate(_Chapter(self.chapters))
        self.chapters.setFixedWidth(look.px(210))
        self.browser = _Pages()
        self.browser.setAccessibleName(say("Manual"))
        self.browser.setOpenLinks(False)
        self.browser.setFrameShape(QTextBrowser.Shape.NoFrame)
        slim(self.browser)
        across.addWidget(self.chapters)
        across.addWidget(self.browser, 1)
        column.addLayout(across, 1)
        foot = QHBoxLayout()
        foot.setContentsMargins(0, 0, look.px(12), 0)
        foot.addStretch(1)
        close = PushButton(say("Close"))
        close.clicked.connect(self.close)
        foot.addWidget(close)
        column.addLayout(foot)
        open_at(self, look.px(940), look.px(720))
        self._places: list[int] = []
        self.chapters.currentRowChanged.connect(self._go_to)
        theme().changed.connect(self._fill)
        self._fill()

    def _fill(self) -> None:
        """Text, chapters and colours in the scheme and size in force."""
        palette = self.browser.palette()
        palette.setColor(QPalette.ColorRole.Base, look.colours().surface)
        for widget in (self.browser, self.chapters):
            widget.setPalette(palette)
        document = self.browser.document()
        document.setDefaultFont(look.font(14))
        document.setDocumentMargin(look.px(24))
        self.browser.setMarkdown(manual_text())
        self._set_type(document)
        self.browser.moveCursor(QTextCursor.MoveOperation.Start)

    def _set_type(self, document: QTextDocument) -> None:
        """Room above heads, our own type for what is typed, pictures no wider than the page."""
        chapters: list[str] = []
        self._places = []
        block = document.begin()
        while block.isValid():
            cursor = QTextCursor(block)
            cursor.select(QTextCursor.SelectionType.BlockUnderCursor)
            level = block.blockFormat().headingLevel()
            shape = QTextBlockFormat()
            if level:
                shape.setTopMargin(look.px({1: 4, 2: 24}.get(level, 14)))
                shape.setBottomMargin(look.px(6))
                letters = QTextCharFormat()
                letters.setProperty(QTextCharFormat.Property.FontPixelSize, look.px({1: 28, 2: 18}.get(level, 14)))
                letters.setFontWeight(QFont.Weight.DemiBold)
                cursor.mergeCharFormat(letters)
                if level == 2:
                    chapters.append(block.text())
                    self._places.append(block.position())
            elif block.textList() is not None:
                shape.setBottomMargin(look.px(3))
            else:
                shape.setTopMargin(look.px(4))
                shape.setBottomMargin(look.px(6))
            cursor.mergeBlockFormat(shape)
            self._set_fragments(block)
            block = block.next()
        self.chapters.blockSignals(True)
        self.chapters.clear()
        for chapter in chapters:
            self.chapters.addItem(QListWidgetItem(chapter))
        self.chapters.blockSignals(False)

    def _set_fragments(self, block: object) -> None:
        from PySide6.QtGui import QTextBlock

        assert isinstance(block, QTextBlock)
        iterator = block.begin()
        spans: list[tuple[int, int, QTextCharFormat]] = []
        while not iterator.atEnd():
            fragment = iterator.fragment()
            shape = fragment.charFormat()
            if shape.isImageFormat():
                picture = QTextImageFormat(shape.toImageFormat())
                picture.setWidth(look.px(640))
                spans.append((fragment.position(), fragment.length(), picture))
            elif shape.fontFixedPitch() or "mono" in " ".join(shape.fontFamilies() or []).casefold():
                typed = QTextCharFormat()
                typed.setFontFamilies([FAMILY])
                typed.setFontFixedPitch(False)
                typed.setFontWeight(QFont.Weight.DemiBold)
                spans.append((fragment.position(), fragment.length(), typed))
            iterator += 1
        for start, length, shape in spans:
            cursor = QTextCursor(block)
            cursor.setPosition(start)
            cursor.setPosition(start + length, QTextCursor.MoveMode.KeepAnchor)
            if shape.isImageFormat():
                cursor.setCharFormat(shape)
            else:
                cursor.mergeCharFormat(shape)

    def _go_to(self, row: int) -> None:
        if not 0 <= row < len(self._places):
            return
        cursor = QTextCursor(self.browser.document())
        cursor.setPosition(self._places[row])
        self.browser.setTextCursor(cursor)
        bar = self.browser.verticalScrollBar()
        bar.setValue(0 if row == 0 else bar.value() + self.browser.cursorRect(cursor).top() - look.px(16))


def show_manual(parent: QWidget) -> Manual:
    """Opens the manual, or brings the open one to the front."""
    found = parent.findChild(Manual)
    manual = found if isinstance(found, Manual) else Manual(parent)
    manual.show()
    manual.raise_()
    return manual


def about_box(parent: QWidget) -> QMessageBox:
    """Version, and whose work it stands on with each licence."""
    box = QMessageBox(parent)
    box.setWindowTitle(say("About Wallwright"))
    box.setText(say("Wallwright {version}", version=composer.__version__))
    words = say("It plans a picture wall to scale and prints the paper to hang it by. It stands on:")
    box.setInformativeText("\n".join([words, *(line.removeprefix("- ") for line in licences())]))
    box.setStandardButtons(QMessageBox.StandardButton.Close)
    return box
