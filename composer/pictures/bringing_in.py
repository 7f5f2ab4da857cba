"""Many pictures brought in at once: each looked into, its content known, a preview kept; in threads, to be stopped."""

import os
import threading
from collections.abc import Generator, Iterable
from concurrent.futures import FIRST_COMPLETED, Future, ThreadPoolExecutor, wait
from dataclasses import dataclass
from pathlib import Path

from composer.pictures.decoding import Cancelled, Stopped, never
from composer.pictures.previews import Previews
from composer.pictures.probing import PictureFacts, digest, probe
from composer.pictures.refused import BadPicture

LARGE_PIXELS = 40_000_000
"""Larger pictures are decoded one at a time: a progressive JPEG of 100 million pixels takes 300 MB."""

_large = threading.Lock()


@dataclass(frozen=True, slots=True)
class Brought:
    """One file brought in, or the sentence that says why not.

    Attributes:
        facts, sha256, size_bytes: what the file is; None when it was refused.
        preview: a JPEG in sRGB, upright; None when it was refused.
        refused: why; empty when all is well.
    """

    path: Path
    facts: PictureFacts | None = None
    sha256: str | None = None
    size_bytes: int | None = None
    preview: bytes | None = None
    refused: str = ""


def bring_in(
    paths: Iterable[Path], previews: Previews, side: int, *, threads: int | None = None, cancelled: Cancelled = never
) -> Generator[Brought, None, None]:
    """Brings files in, each as soon as it is ready.

    Args:
        paths: the files; see :func:`composer.pictures.whereabouts.pictures_in` for folders.
        previews: where previews are kept.
        side: longer side of a preview, pixels.
        threads: how many at once; None = one less than there are processors, so that a window stays quick.
        cancelled: asked between files and between a file's steps; what is ready then still comes.
    """
    workers = threads or max(1, (os.cpu_count() or 2) - 1)
    waiting = iter(paths)
    with ThreadPoolExecutor(workers, thread_name_prefix="pictures") as pool:
        running: set[Future[Brought]] = set()
        while True:
            while len(running) < 2 * workers and not cancelled():
                path = next(waiting, None)
                if path is None:
                    break
                running.add(pool.submit(_one, path, previews, side, cancelled))
            if not running:
                return
            done, running = wait(running, return_when=FIRST_COMPLETED)
            for future in done:
                try:
                    yield future.result()
                except Stopped:
                    continue


def _one(path: Path, previews: Previews, side: int, cancelled: Cancelled) -> Brought:
    if cancelled():
        raise Stopped
    try:
        facts = probe(path)
        hashed, size = digest(path)
        if facts.pixels[0] * facts.pixels[1] > LARGE_PIXELS:
            with _large:
                preview = previews.make(path, side, hashed, cancelled)
        else:
            preview = previews.make(path, side, hashed, cancelled)
    except BadPicture as refused:
        return Brought(path, refused=str(refused))
    return Brought(path, facts, hashed, size, preview)
