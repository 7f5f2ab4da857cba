"""What stands where dialogs would ask, while nobody is there to answer."""

from __future__ import annotations

from pathlib import Path

from PySide6.QtWidgets import QDialog, QWidget

from composer.desktop.files import Answer


class Answers:
    """Stands where dialogs would ask."""

    def __init__(self, folder: Path) -> None:
        self.path: Path = folder / "soak.wallwright"
        self.dialogs: list[QDialog] = []

    def open_path(self, parent: QWidget, title: str, kinds: str) -> Path | None:
        return self.path if self.path.is_file() else None

    def open_paths(self, parent: QWidget, title: str, kinds: str) -> list[Path]:
        return []

    def save_path(self, parent: QWidget, title: str, start: str, kinds: str) -> Path | None:
        return self.path

    def save_first(self, parent: QWidget, name: str) -> Answer:
        return "save"

    def yes(self, parent: QWidget, question: str, do: str) -> bool:
        return True

    def tell(self, parent: QWidget, sentence: str) -> None:
        return

    def line(self, parent: QWidget, title: str, label: str) -> str | None:
        return None

    def folder(self, parent: QWidget, title: str) -> Path | None:
        return None

    def run(self, dialog: QDialog) -> None:
        self.dialogs.append(dialog)
