"""The project a sheet of prints is made from: with the pixels its pictures' files have now."""

from pathlib import Path

from composer.model import Project
from composer.projectfile.store import Opened

SHOWING_PICTURES = ("prints",)


def with_pictures(file: Opened, kind: str) -> tuple[Project, Path | None]:
    """The project for that kind of paper, and the folder its pictures are found from; None = not wanted."""
    if kind not in SHOWING_PICTURES:
        return file.project, None
    from composer.projectfile.pictures_read import read_pictures

    folder = file.path.parent
    return read_pictures(file.project, folder).project, folder
