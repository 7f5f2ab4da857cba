"""The manual in the program: the text that ships, every action by its table, every catalogue id."""

from __future__ import annotations

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QDialog, QHBoxLayout, QTextBrowser, QVBoxLayout, QWidget

import composer
from composer.catalogue.catalogue import usual
from composer.catalogue.names import name_of, status_words
from composer.desktop import actions
from composer.desktop import field_look as look
from composer.desktop.field_row import PushButton
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
    lines = [
        f"## {say('About Wallwright')}",
        say("Version {version}.", version=composer.__version__),
        *(say("- {what}: {licence}", what=what, licence=licence) for what, licence in LICENCES),
    ]
    return "\n".join(lines)


class Manual(QDialog):
    """The manual in its own window; it may stay open beside the work."""

    def __init__(self, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setWindowTitle(say("Manual"))
        column = QVBoxLayout(self)
        self.browser = QTextBrowser()
        self.browser.setAccessibleName(say("Manual"))
        self.browser.setOpenLinks(False)
        self.browser.setFrameShape(QTextBrowser.Shape.NoFrame)
        document = self.browser.document()
        document.setDefaultFont(look.font(14))
        document.setDocumentMargin(look.px(20))
        self.browser.setMarkdown(manual_text())
        column.addWidget(self.browser, 1)
        foot = QHBoxLayout()
        foot.addStretch(1)
        close = PushButton(say("Close"))
        close.clicked.connect(self.close)
        foot.addWidget(close)
        column.addLayout(foot)
        self.resize(look.px(680), look.px(720))
        self.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)


def show_manual(parent: QWidget) -> Manual:
    """Opens the manual, or brings the open one to the front."""
    found = parent.findChild(Manual)
    manual = found if isinstance(found, Manual) else Manual(parent)
    manual.show()
    manual.raise_()
    return manual
