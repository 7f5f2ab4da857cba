"""What the program remembers about a person between two starts; nothing of it belongs to a project.

The only place that reads or writes settings. Lists are kept as one JSON string, since the Ini form
turns an empty list into nothing.
"""

from __future__ import annotations

import os
from pathlib import Path

from PySide6.QtCore import QByteArray, QSettings

from composer.desktop.theme import SchemeChoice

RECENT = 10


class Settings:
    """Typed access to the settings file.

    Args:
        folder: where it lies; None = the person's own settings folder.
    """

    def __init__(self, folder: Path | None = None) -> None:
        self.folder = folder or _own_folder()
        self._file = QSettings(str(self.folder / "wallwright.ini"), QSettings.Format.IniFormat)

    @property
    def scheme(self) -> SchemeChoice:
        """Light, dark, or whatever the system says."""
        value = str(self._file.value("look/scheme", "system"))
        if value == "light":
            return "light"
        return "dark" if value == "dark" else "system"

    @scheme.setter
    def scheme(self, choice: SchemeChoice) -> None:
        self._file.setValue("look/scheme", choice)

    @property
    def text_percent(self) -> int:
        """Text size, 100 to 200."""
        return max(100, min(200, self._number("look/text_percent", 100)))

    @text_percent.setter
    def text_percent(self, percent: int) -> None:
        self._file.setValue("look/text_percent", percent)

    @property
    def recent_files(self) -> list[Path]:
        """Projects opened lately, the latest first, that still exist."""
        return [Path(path) for path in self._texts("files/recent") if Path(path).is_file()]

    def add_recent(self, path: Path) -> None:
        """Puts a project in front of the recent ones."""
        whole = str(path.resolve())
        kept = [whole, *(other for other in self._texts("files/recent") if other != whole)]
        self._write_texts("files/recent", kept[:RECENT])

    def hint_closed(self, name: str) -> bool:
        """Whether a hint was closed for good."""
        return name in self._texts("hints/closed")

    def close_hint(self, name: str) -> None:
        """Closes a hint for good."""
        self._write_texts("hints/closed", sorted({name, *self._texts("hints/closed")}))

    def printer_reading(self, printer: str, sheet: str) -> tuple[str, str, str] | None:
        """What was read off the scale check of a printer and sheet: across, up, and when; None = never."""
        found = self._texts(f"printers/{_plain(printer)}/{sheet}")
        return (found[0], found[1], found[2]) if len(found) == 3 else None

    def keep_printer_reading(self, printer: str, sheet: str, across: str, up: str, when: str) -> None:
        """Remembers it; both readings empty take it back."""
        self._write_texts(f"printers/{_plain(printer)}/{sheet}", [across, up, when] if across or up else [])

    def splitter_sizes(self, name: str, screen: str) -> list[int]:
        """Sizes of panels as last left on a screen of that size; empty when never used there."""
        try:
            return [int(size) for size in self._texts(f"panels/{name}/{screen}")]
        except ValueError:
            return []

    def keep_splitter_sizes(self, name: str, screen: str, sizes: list[int]) -> None:
        """Remembers sizes of panels for a screen of that size."""
        self._write_texts(f"panels/{name}/{screen}", [str(size) for size in sizes])

    @property
    def window_geometry(self) -> QByteArray | None:
        """Where the window was."""
        value = self._file.value("window/geometry")
        return value if isinstance(value, QByteArray) else None

    @window_geometry.setter
    def window_geometry(self, geometry: QByteArray) -> None:
        self._file.setValue("window/geometry", geometry)

    def write(self) -> None:
        """Writes what is pending."""
        self._file.sync()

    def _number(self, key: str, default: int) -> int:
        try:
            return int(str(self._file.value(key, default)))
        except ValueError:
            return default

    def _texts(self, key: str) -> list[str]:
        import json

        try:
            value = json.loads(str(self._file.value(key, "[]")))
        except ValueError:
            return []
        return [text for text in value if isinstance(text, str)] if isinstance(value, list) else []

    def _write_texts(self, key: str, texts: list[str]) -> None:
        import json

        self._file.setValue(key, json.dumps(texts))


def _plain(name: str) -> str:
    """A printer's name as a key: the Ini form gives slashes a meaning."""
    return name.replace("/", "_").replace("\\", "_") or "pdf"


def _own_folder() -> Path:
    if named := os.environ.get("WALLWRIGHT_SETTINGS"):
        return Path(named)
    import platformdirs

    return Path(platformdirs.user_config_dir("wallwright", appauthor=False))
