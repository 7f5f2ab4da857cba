"""What became of the pictures' files, without waiting: a window asks often, reading is done beside it."""

import threading
from pathlib import Path
from typing import NamedTuple

from composer.model import Picture
from composer.pictures.whereabouts import whereabouts


class _Stamp(NamedTuple):
    """What a file's entry says without reading it; what it was compared with."""

    modified_ns: int
    size: int
    sha256: str | None


class PictureStates:
    """Remembers what was found in each file for as long as its time and length stay the same.

    :meth:`state` only looks at the folder; :meth:`look` reads the file and may run in another thread.
    """

    def __init__(self) -> None:
        self._known: dict[Path, tuple[_Stamp, str]] = {}
        self._pending: dict[str, tuple[Picture, Path]] = {}
        self._lock = threading.Lock()

    def state(self, picture: Picture, folder: Path) -> str:
        """Empty while all is well or not looked at yet, ``missing``, ``changed``, or why it cannot be used.

        This is what :class:`composer.findings.FindingsCache` asks for.
        """
        path = folder / picture.path
        stamp = _stamp(path, picture)
        if stamp is None:
            return "missing"
        with self._lock:
            known = self._known.get(path)
            if known is not None and known[0] == stamp:
                return known[1]
            self._pending[picture.key] = (picture, folder)
        return ""

    def pending(self) -> tuple[tuple[Picture, Path], ...]:
        """Pictures, each with the project's folder, that were asked for and must be looked at; asked for once."""
        with self._lock:
            found = tuple(self._pending.values())
            self._pending.clear()
        return found

    def look(self, picture: Picture, folder: Path) -> str:
        """Reads the file and remembers what became of it; returns what :meth:`state` will say."""
        path = folder / picture.path
        stamp = _stamp(path, picture)
        seen = whereabouts(picture, folder)
        state = seen.refused if seen.state == "bad" else seen.state if seen.state in ("missing", "changed") else ""
        if stamp is not None:
            with self._lock:
                self._known[path] = (stamp, state)
        return state


def _stamp(path: Path, picture: Picture) -> _Stamp | None:
    try:
        found = path.stat()
    except (OSError, ValueError):
        return None
    return _Stamp(found.st_mtime_ns, found.st_size, picture.sha256)
