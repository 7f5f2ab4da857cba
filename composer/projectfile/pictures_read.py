"""The project's pictures as their files are now, for whoever needs pixels."""

from pathlib import Path
from typing import NamedTuple

from msgspec.structs import replace

from composer.model import Project
from composer.pictures.whereabouts import Whereabouts, whereabouts


class Read(NamedTuple):
    """A project whose pictures have the pixels of their files, and what became of each file, by key."""

    project: Project
    found: dict[str, Whereabouts]


def read_pictures(project: Project, folder: Path) -> Read:
    """Looks into the file of every picture some piece shows; nothing is decoded, nothing stored.

    A changed file counts with the pixels it has now.
    """
    shown = {piece.uses[piece.current_use].picture for piece in project.pieces if piece.current_use is not None}
    found: dict[str, Whereabouts] = {}
    pictures = []
    for picture in project.pictures:
        if picture.key in shown:
            found[picture.key] = seen = whereabouts(picture, folder)
            if seen.facts is not None and seen.facts.pixels != picture.pixels:
                picture = replace(picture, pixels=seen.facts.pixels)
        pictures.append(picture)
    return Read(project if tuple(pictures) == project.pictures else replace(project, pictures=tuple(pictures)), found)
