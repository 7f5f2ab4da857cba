"""The look of the window: colour tokens for light and dark, type, text size, and who hears of a change.

Tokens are plain data, so that a test can compute the contrast of every pairing. Widgets get them as
a palette; what draws itself asks :func:`theme` for the tokens in force and paints from them.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from PySide6.QtCore import QByteArray, QObject, Qt, Signal
from PySide6.QtGui import QColor, QFont, QFontDatabase, QPalette
from PySide6.QtWidgets import QApplication
from shiboken6 import isValid

FAMILY = "Source Sans Pro"
WEIGHTS = ("Regular", "Semibold", "Bold")

SchemeChoice = Literal["system", "light", "dark"]

LIGHT: Mapping[str, str] = {
    "wall": "#EFE9E1",
    "floor": "#DDD2C5",
    "skirting": "#FBF8F4",
    "void": "#E6E1DA",
    "room_line": "#A79F94",
    "surface": "#FAF8F5",
    "surface_2": "#F1EDE7",
    "line": "#D8D2C9",
    "field": "#FFFFFF",
    "field_line": "#8F887E",
    "ink": "#2B2A28",
    "pencil": "#5F5A54",
    "chalk": "#215A9C",
    "accent": "#95520A",
    "accent_wash": "#F4E6D5",
    "on_fill": "#FFFFFF",
    "stop": "#AB231B",
    "warn": "#785100",
    "ok": "#2A6039",
}
DARK: Mapping[str, str] = {
    "wall": "#3A3733",
    "floor": "#2E2A26",
    "skirting": "#45413C",
    "void": "#1A1817",
    "room_line": "#5E5952",
    "surface": "#211F1D",
    "surface_2": "#2A2826",
    "line": "#45413C",
    "field": "#191816",
    "field_line": "#7D766C",
    "ink": "#EDE8E1",
    "pencil": "#B4ADA3",
    "chalk": "#8DBBEE",
    "accent": "#E9AE5E",
    "accent_wash": "#3B3022",
    "on_fill": "#211F1D",
    "stop": "#F4938C",
    "warn": "#E3BC66",
    "ok": "#8CC79B",
}

GROUNDS = ("wall", "floor", "skirting", "void", "surface", "surface_2", "field", "accent_wash")
"""Everything a text may stand on."""

TEXTS = ("ink", "pencil", "chalk", "accent", "stop", "warn", "ok")

PAIRINGS: tuple[tuple[str, str, float], ...] = (
    *(
        (text, ground, 4.5)
        for text in TEXTS
        for ground in GROUNDS
        if (text, ground) != ("accent", "floor")  # accent text never stands on the floor
    ),
    *(("on_fill", fill, 4.5) for fill in ("accent", "chalk", "stop", "ink")),
    *(("field_line", ground, 3.0) for ground in ("field", "surface")),
)
"""Every pairing in use, with the contrast it must reach (WCAG 2.2, 1.4.3 and 1.4.11)."""


def contrast(one: str, other: str) -> float:
    """Contrast of two colours ``#RRGGBB``, 1 to 21, as WCAG 2.2 defines it."""
    bright, dark = sorted((_luminance(one), _luminance(other)), reverse=True)
    return (bright + 0.05) / (dark + 0.05)


def _luminance(colour: str) -> float:
    parts = [int(colour[start : start + 2], 16) / 255 for start in (1, 3, 5)]
    red, green, blue = (part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4 for part in parts)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


class Theme(QObject):
    """The scheme and text size in force.

    Signals:
        changed: colours or type are no longer what they were; repaint and lay out again.
    """

    changed = Signal()

    def __init__(self, app: QApplication, choice: SchemeChoice = "system", text_percent: int = 100) -> None:
        super().__init__(app)
        self._app = app
        self._choice: SchemeChoice = choice
        self._percent = text_percent
        self._colours: dict[str, QColor] = {}
        self._fonts: dict[tuple[int, bool], QFont] = {}
        self.generation = 0
        """Rises with each change, so that what was drawn before can be told from what is drawn now."""
        load_type()
        hints = app.styleHints()
        hints.colorSchemeChanged.connect(self._on_system_scheme)
        self._install()

    @property
    def dark(self) -> bool:
        """Whether the dark tokens are in force."""
        if self._choice == "system":
            return self._app.styleHints().colorScheme() == Qt.ColorScheme.Dark
        return self._choice == "dark"

    @property
    def choice(self) -> SchemeChoice:
        """What the person chose: one of the two, or whatever the system says."""
        return self._choice

    @property
    def text_percent(self) -> int:
        """Text size, 100 to 200."""
        return self._percent

    def choose(self, choice: SchemeChoice) -> None:
        """Takes a scheme, or follows the system's."""
        if choice != self._choice:
            self._choice = choice
            self._install()

    def set_text_percent(self, percent: int) -> None:
        """Takes a text size; outside 100 to 200 the nearest of the two."""
        percent = max(100, min(200, percent))
        if percent != self._percent:
            self._percent = percent
            self._install()

    @property
    def pixel_ratio(self) -> float:
        """Device pixels a point on the densest screen there is."""
        return float(self._app.devicePixelRatio())

    def colour(self, token: str) -> QColor:
        """A token's colour in the scheme in force; the caller's own, to be changed at will."""
        return QColor(self._colours[token])

    def px(self, size: float) -> int:
        """Pixels that ``size`` pixels at 100 % take at the text size in force."""
        return round(size * self._percent / 100)

    def font(self, size: float = 14, *, semibold: bool = False) -> QFont:
        """The program's type; ``size`` in pixels at 100 %."""
        pixels = self.px(size)
        made = self._fonts.get((pixels, semibold))
        if made is None:
            made = QFont(FAMILY)
            made.setPixelSize(pixels)
            made.setWeight(QFont.Weight.DemiBold if semibold else QFont.Weight.Normal)
            made.setHintingPreference(QFont.HintingPreference.PreferNoHinting)
            self._fonts[pixels, semibold] = made
        return QFont(made)

    def _on_system_scheme(self, _scheme: Qt.ColorScheme) -> None:
        if self._choice == "system":
            self._install()

    def _install(self) -> None:
        tokens = DARK if self.dark else LIGHT
        self._colours = {name: QColor(value) for name, value in tokens.items()}
        self.generation += 1
        self._app.setPalette(palette_of(tokens))
        self._app.setFont(self.font())
        self.changed.emit()


def palette_of(tokens: Mapping[str, str]) -> QPalette:
    """A whole palette from the tokens of one scheme."""
    roles = QPalette.ColorRole
    made = QPalette()
    for role, token in (
        (roles.Window, "surface"),
        (roles.WindowText, "ink"),
        (roles.Base, "field"),
        (roles.AlternateBase, "surface_2"),
        (roles.Text, "ink"),
        (roles.Button, "surface"),
        (roles.ButtonText, "ink"),
        (roles.BrightText, "stop"),
        (roles.Highlight, "accent_wash"),
        (roles.HighlightedText, "ink"),
        (roles.Accent, "chalk"),
        (roles.Link, "chalk"),
        (roles.LinkVisited, "chalk"),
        (roles.ToolTipBase, "surface"),
        (roles.ToolTipText, "ink"),
        (roles.PlaceholderText, "pencil"),
        (roles.Light, "surface"),
        (roles.Midlight, "surface_2"),
        (roles.Mid, "line"),
        (roles.Dark, "field_line"),
        (roles.Shadow, "line"),
    ):
        made.setColor(role, QColor(tokens[token]))
    # A tool that is not to be used now stays readable: it is dimmed to half between text and ground.
    dimmed = QColor(tokens["field_line"])
    for role in (roles.WindowText, roles.Text, roles.ButtonText):
        made.setColor(QPalette.ColorGroup.Disabled, role, dimmed)
    return made


def load_type() -> None:
    """Loads the program's own type, once a process; the system need not have any."""
    if FAMILY in QFontDatabase.families():
        return
    from importlib.resources import files

    folder = files("font_source_sans_pro") / "files"
    for weight in WEIGHTS:
        data = (folder / f"SourceSansPro-{weight}.ttf").read_bytes()
        QFontDatabase.addApplicationFontFromData(QByteArray(data))


_current: Theme | None = None


def theme() -> Theme:
    """The theme of the running application, made on first use."""
    global _current
    if _current is None or not isValid(_current):
        app = QApplication.instance()
        assert isinstance(app, QApplication)
        found = app.findChild(Theme)
        _current = found if isinstance(found, Theme) else Theme(app)
    return _current
