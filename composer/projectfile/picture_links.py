"""Pictures are not in the project file: it knows them by their path from its folder and their digest."""

import hashlib
import os
import unicodedata
from pathlib import Path

import msgspec

from composer.model import Picture, Project
from composer.projectfile.errors import CannotRead, cannot_read
from composer.texts import say

_BLOCK = 1 << 20


def relative_path(picture: Path, folder: Path) -> str:
    """The path a project in ``folder`` stores: from there, with ``/``, composed Unicode.

    On another Windows drive there is no way from there; the path then stays absolute.
    """
    try:
        way = os.path.relpath(picture, folder)
    except ValueError:
        way = str(picture.absolute())
    return unicodedata.normalize("NFC", Path(way).as_posix())


def located(picture: Picture, folder: Path) -> Path:
    """Where a picture's file should be, seen from the project's folder."""
    return folder / picture.path


def counted_from(project: Project, old: Path, new: Path | None, known: dict[Picture, Picture] | None = None) -> Project:
    """The project with its pictures' paths counted from another folder; None = none at all: absolute paths.

    With ``known`` several projects are counted anew: a picture they have in common stays one record.
    """
    if not project.pictures or (new is not None and os.path.realpath(old) == os.path.realpath(new)):
        return project

    def path_of(picture: Picture) -> str:
        place = located(picture, old)
        return place.absolute().as_posix() if new is None else relative_path(place, new)

    made = {} if known is None else known
    for picture in project.pictures:
        if picture not in made:
            made[picture] = msgspec.structs.replace(picture, path=path_of(picture))
    return msgspec.structs.replace(project, pictures=tuple(made[picture] for picture in project.pictures))


def read_link(picture: Picture, folder: Path) -> Picture:
    """The picture with size and digest of the file as it is now, and with its pixels where it is sound.

    Raises:
        CannotRead: when the file is missing or cannot be read.
    """
    path = located(picture, folder)
    digest, size = hashlib.sha256(), 0
    try:
        if path.exists() and not path.is_file():
            raise CannotRead(say("“{path}” is not a file.", path=path))
        with path.open("rb") as file:
            while block := file.read(_BLOCK):
                digest.update(block)
                size += len(block)
    except OSError as error:
        raise cannot_read(path, error) from None
    pixels, profile = _seen(path)
    return msgspec.structs.replace(picture, sha256=digest.hexdigest(), size_bytes=size, pixels=pixels, profile=profile)


def _seen(path: Path) -> tuple[tuple[int, int] | None, str | None]:
    """Pixels and profile from the file's head; a file that is no sound picture is linked without."""
    from composer.pictures.probing import probe
    from composer.pictures.refused import BadPicture

    try:
        facts = probe(path)
    except BadPicture:
        return None, None
    return facts.pixels, facts.profile
