"""Small pictures for the screen, kept by content in the person's cache folder, never beside the project."""

import contextlib
import io
import os
import secrets
import time
from pathlib import Path

from composer.pictures.decoding import Cancelled, decode_within, never
from composer.pictures.probing import digest

MOST_BYTES = 200_000_000
"""The cache is swept down to 4/5 of this when it grows beyond it."""

SIDES = (256, 512, 1024, 2048)
"""Longer sides in which previews are kept, pixels; the next larger one is given."""

_QUALITY = 90


class Previews:
    """A folder of previews; the same content is decoded once, whatever its file is called.

    Args:
        folder: where they lie; None = the person's cache folder.
        most_bytes: how large it may grow.
    """

    def __init__(self, folder: Path | None = None, most_bytes: int = MOST_BYTES) -> None:
        if folder is None:
            from platformdirs import user_cache_path

            folder = user_cache_path("wallwright") / "pictures"
        self.folder = folder
        self._most_bytes = most_bytes
        self._grown = 0

    def kept(self, sha256: str, side: int) -> bytes | None:
        """The JPEG kept for that content and size; None = not yet made."""
        path = self._path(sha256, _step(side))
        try:
            data = path.read_bytes()
        except OSError:
            return None
        if not data.endswith(b"\xff\xd9"):  # a crash while the disk was full
            return None
        with contextlib.suppress(OSError):
            os.utime(path)
        return data

    def make(self, path: Path, side: int, sha256: str | None = None, cancelled: Cancelled = never) -> bytes:
        """The picture as a JPEG in sRGB, upright, its longer side at most ``side`` rounded up to a step.

        Args:
            path: the picture's file.
            side: pixels on the screen.
            sha256: of its content, where that is known to be so now.
            cancelled: asked between the steps.

        Raises:
            BadPicture: with one sentence.
            Stopped: when ``cancelled`` says so.
        """
        hashed = digest(path)[0] if sha256 is None else sha256
        kept = self.kept(hashed, side)
        if kept is not None:
            return kept
        image = decode_within(path, _step(side), cancelled)
        made = io.BytesIO()
        image.save(made, "JPEG", quality=_QUALITY, subsampling=0)
        self._keep(self._path(hashed, _step(side)), made.getvalue())
        return made.getvalue()

    def _path(self, sha256: str, side: int) -> Path:
        return self.folder / sha256[:2] / f"{sha256}-{side}.jpg"

    def _keep(self, path: Path, data: bytes) -> None:
        """A cache that cannot be written is no reason to fail."""
        with contextlib.suppress(OSError):
            path.parent.mkdir(parents=True, exist_ok=True)
            draft = path.with_name(f".{secrets.token_hex(6)}.tmp")
            draft.write_bytes(data)
            draft.replace(path)
            self._grown += len(data)
            if self._grown > self._most_bytes / 20:
                self._grown = 0
                self.sweep()

    def sweep(self) -> None:
        """Removes what was looked at longest ago until the folder is small enough, and forgotten drafts."""
        found = []
        for path in self.folder.glob("*/*"):
            with contextlib.suppress(OSError):
                known = path.stat()
                if path.suffix == ".tmp":
                    if time.time() - known.st_mtime > 3600:
                        path.unlink()
                else:
                    found.append((known.st_mtime, known.st_size, path))
        total = sum(size for _, size, _ in found)
        if total <= self._most_bytes:
            return
        for _, size, path in sorted(found):
            if total <= self._most_bytes * 0.8:
                break
            with contextlib.suppress(OSError):
                path.unlink()
                total -= size


def _step(side: int) -> int:
    return next((step for step in SIDES if step >= side), SIDES[-1])
