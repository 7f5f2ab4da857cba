"""Where a project's pictures are now: here, changed, gone, found again under another name."""

import os
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from composer.model import Picture
from composer.pictures.opening import SUFFIXES
from composer.pictures.probing import PictureFacts, digest, probe
from composer.pictures.refused import BadPicture

State = Literal["here", "missing", "changed", "bad", "unread"]

Progress = Callable[[int, int], None]
"""Called with how many are done and how many there are."""


def silent(_done: int, _all: int) -> None:
    """Nobody watches."""


def never() -> bool:
    """Nobody cancels."""
    return False


@dataclass(frozen=True, slots=True)
class Whereabouts:
    """What became of one picture's file.

    Attributes:
        state: ``here`` as linked · ``changed``: another content under the name · ``missing`` · ``bad``:
            there, but not a picture that can be read · ``unread``: here, linked without having been read.
        refused: the sentence that says why it is bad or missing.
        facts: of the file as it is now.
    """

    picture: Picture
    path: Path
    state: State
    facts: PictureFacts | None = None
    refused: str = ""


def whereabouts(picture: Picture, folder: Path) -> Whereabouts:
    """Looks a picture up; ``folder`` is the project's. The whole file is read to know its content."""
    path = folder / picture.path
    try:
        facts = probe(path)
        changed = picture.sha256 is not None and _differs(picture, path)
    except BadPicture as refused:
        state: State = "missing" if refused.why == "missing" else "bad"
        return Whereabouts(picture, path, state, None, str(refused))
    if picture.sha256 is None:
        return Whereabouts(picture, path, "unread", facts)
    return Whereabouts(picture, path, "changed" if changed else "here", facts)


def _differs(picture: Picture, path: Path) -> bool:
    if picture.size_bytes is not None and path.stat().st_size != picture.size_bytes:
        return True
    return digest(path)[0] != picture.sha256


def find_moved(
    wanted: Iterable[Picture],
    folder: Path,
    *,
    progress: Progress = silent,
    cancelled: Callable[[], bool] = never,
) -> dict[str, Path]:
    """Files below ``folder`` that have the content of wanted pictures, by the pictures' keys.

    Only files of a wanted length are read. A picture that was never read cannot be found by content.
    """
    missing = {picture.key: picture for picture in wanted if picture.sha256 is not None}
    sizes = {picture.size_bytes for picture in missing.values() if picture.size_bytes is not None}
    any_size = any(picture.size_bytes is None for picture in missing.values())
    candidates = [path for path in _files(folder, cancelled) if any_size or _size(path) in sizes]
    found: dict[str, Path] = {}
    for done, path in enumerate(candidates):
        if cancelled() or len(found) == len(missing):
            break
        progress(done, len(candidates))
        try:
            hashed, _ = digest(path)
        except BadPicture:
            continue
        for key, picture in missing.items():
            if key not in found and picture.sha256 == hashed:
                found[key] = path
    progress(len(candidates), len(candidates))
    return found


def pictures_in(places: Iterable[Path], cancelled: Callable[[], bool] = never) -> list[Path]:
    """What was dropped: files as they are, folders as the pictures below them, in order of their names."""
    known = {suffix for suffixes in SUFFIXES.values() for suffix in suffixes}
    found: list[Path] = []
    for place in places:
        if place.is_dir():
            found += [path for path in _files(place, cancelled) if path.suffix.casefold() in known]
        else:
            found.append(place)
    return list(dict.fromkeys(found))


def _files(folder: Path, cancelled: Callable[[], bool]) -> Iterator[Path]:
    """Every file below a folder, by name; folders that are links are not entered, hidden ones left out."""
    for here, folders, names in os.walk(folder):
        if cancelled():
            return
        folders[:] = sorted(name for name in folders if not name.startswith("."))
        for name in sorted(names):
            if not name.startswith("."):
                yield Path(here, name)


def _size(path: Path) -> int:
    try:
        return path.stat().st_size
    except OSError:
        return -1
