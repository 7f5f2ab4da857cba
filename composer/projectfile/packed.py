"""A packed copy: the project and its pictures in one ZIP archive that opens in another place.

An archive may come from anybody, so nothing in it is believed: names are checked before anything is
written, sizes are counted while writing, only the project and the pictures it names are taken out, each
with the content the project knows, and everything goes into a folder of its own or nowhere.
"""

import contextlib
import hashlib
import io
import os
import secrets
import shutil
import stat
import zipfile
import zlib
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path, PurePosixPath
from typing import BinaryIO

from msgspec.structs import replace

from composer.model import Picture, Project
from composer.prints.file_names import plain
from composer.projectfile import schema
from composer.projectfile.errors import ProjectFileError, cannot_read, cannot_write
from composer.projectfile.picture_links import located
from composer.texts import say

PICTURES = "pictures"
PROJECT_SUFFIX = ".wallwright"

MOST_ENTRIES = 5_000
MOST_BYTES = 8_000_000_000
MOST_TIMES = 1_000
"""How much larger than its packed form an entry may claim to be; deflate's own limit is 1 032 (RFC 1951)."""

_BLOCK = 1 << 20
_DATE = (1980, 1, 1, 0, 0, 0)
"""The earliest moment a ZIP can name: the same project gives the same archive."""

_RESERVED = {"con", "prn", "aux", "nul", *(f"{name}{n}" for name in ("com", "lpt") for n in range(10))}


class BadArchive(ProjectFileError):
    """An archive that is not unpacked; the message is one finished sentence."""


@dataclass(frozen=True, slots=True)
class Packed:
    """What was packed: the pictures inside, and those whose files were missing."""

    pictures: tuple[Picture, ...]
    missing: tuple[Picture, ...]


Progress = Callable[[int, int], bool]
"""Called with pictures done and pictures in all; False stops, and nothing is left behind."""


class Stopped(Exception):
    """The person stopped it."""


def pack(project: Project, folder: Path, target: Path, progress: Progress | None = None) -> Packed:
    """Writes the project and the pictures it links, found from ``folder``, into one archive.

    A picture whose file is missing stays linked as it was.

    Raises:
        CannotWrite, CannotRead: with one sentence; what was at ``target`` is untouched.
        Stopped: ``progress`` said so.
    """
    inside: list[Picture] = []
    missing: list[Picture] = []
    sources: dict[str, Path] = {}
    pictures = []
    for picture in project.pictures:
        source = located(picture, folder)
        if not source.is_file():
            missing.append(picture)
            pictures.append(picture)
            continue
        name = f"{PICTURES}/{picture.key}_{plain(source.stem) or 'picture'}{_suffix(source)}"
        moved = replace(picture, path=name)
        sources[name] = source
        inside.append(moved)
        pictures.append(moved)
    draft = target.with_name(f".wallwright-{secrets.token_hex(8)}.tmp")
    try:
        with draft.open("xb") as file:
            _write(file, replace(project, pictures=tuple(pictures)), plain(target.stem) or "wall", sources, progress)
            file.flush()
            os.fsync(file.fileno())
        draft.replace(target)
    except OSError as error:
        if error.filename is not None and Path(error.filename) in sources.values():
            raise cannot_read(error.filename, error) from error
        raise cannot_write(target, error) from error
    finally:
        with contextlib.suppress(OSError):
            draft.unlink()
    return Packed(tuple(inside), tuple(missing))


def _suffix(source: Path) -> str:
    suffix = plain(source.suffix, 8)
    return f".{suffix}" if suffix else ""


def _write(file: BinaryIO, project: Project, stem: str, sources: dict[str, Path], progress: Progress | None) -> None:
    by_path = {picture.path: picture for picture in project.pictures}
    seen: dict[str, Picture] = {}
    with zipfile.ZipFile(file, "w") as archive:
        for done, (name, source) in enumerate(sources.items()):
            if progress is not None and not progress(done, len(sources)):
                raise Stopped
            # Pictures are compressed already.
            info = _entry(name, zipfile.ZIP_STORED)
            hashed, size = hashlib.sha256(), 0
            with source.open("rb") as opened, archive.open(info, "w", force_zip64=True) as packed:
                while block := opened.read(_BLOCK):
                    hashed.update(block)
                    size += len(block)
                    packed.write(block)
            seen[name] = replace(by_path[name], sha256=hashed.hexdigest(), size_bytes=size)
        # Last, as it says what the files are that went in just now.
        pictures = tuple(seen.get(picture.path, picture) for picture in project.pictures)
        data = schema.encode(replace(project, pictures=pictures))
        archive.writestr(_entry(f"{stem}{PROJECT_SUFFIX}", zipfile.ZIP_DEFLATED), data)


def _entry(name: str, method: int) -> zipfile.ZipInfo:
    info = zipfile.ZipInfo(name, _DATE)
    info.compress_type = method
    info.external_attr = (stat.S_IFREG | 0o644) << 16
    return info


def unpack(path: Path, folder: Path, progress: Progress | None = None) -> Path:
    """Takes the project and its pictures out of an archive into a new folder; the project's path comes back.

    Args:
        path: the archive.
        folder: where to; it must not be there yet, or be empty.
        progress: asked before each picture.

    Raises:
        BadArchive: it is no packed copy, or somebody meddled with it; nothing is left behind.
        CannotRead, CannotWrite, NotAProject, NewerFormat, BadProject: as when opening a project.
        Stopped: ``progress`` said so; nothing is left behind.
    """
    if folder.exists() and (not folder.is_dir() or any(folder.iterdir())):
        raise BadArchive(say("“{folder}” is there already; a packed copy is opened in a new folder.", folder=folder))
    try:
        if not path.is_file():
            raise cannot_read(path, FileNotFoundError() if not path.exists() else IsADirectoryError())
        with path.open("rb") as file, _archive(file, path.name) as archive:
            entries = _checked(archive, path.name)
            return _taken_out(archive, entries, path.name, folder, progress)
    except OSError as error:
        raise cannot_write(folder, error) from error


@contextlib.contextmanager
def _archive(file: BinaryIO, name: str) -> Iterator[zipfile.ZipFile]:
    try:
        archive = zipfile.ZipFile(file)
    except (zipfile.BadZipFile, OSError, ValueError, NotImplementedError, OverflowError) as error:
        raise BadArchive(say("“{file}” is not an archive, or it is cut off.", file=name)) from error
    with archive:
        yield archive


def _checked(archive: zipfile.ZipFile, name: str) -> dict[str, zipfile.ZipInfo]:
    """Every entry by name, once all of them have been found harmless."""
    infos = archive.infolist()
    if len(infos) > MOST_ENTRIES:
        raise _refused(name, say("it holds {count} files", count=len(infos)))
    if sum(info.file_size for info in infos) > MOST_BYTES:
        raise _refused(name, say("unpacked it would be larger than {limit} GB", limit=MOST_BYTES // 10**9))
    folded: set[str] = set()
    for info in infos:
        _expect_harmless(info, name)
        if info.filename.casefold() in folded:
            raise _refused(name, say("it holds “{entry}” twice", entry=_shown(info.filename)))
        folded.add(info.filename.casefold())
    return {info.filename: info for info in infos if not info.is_dir()}


def _expect_harmless(info: zipfile.ZipInfo, name: str) -> None:
    entry = info.filename
    parts = PurePosixPath(entry).parts
    shown = _shown(entry)
    harmless = (
        entry == info.orig_filename
        and entry.isprintable()
        and not set(entry) & set('\\:*?"<>|')
        and not entry.startswith("/")
        and ".." not in parts
        and len(entry) <= 200
        and len(parts) <= 8
        and all(
            part == part.strip(" ").rstrip(".") and part.split(".")[0].casefold() not in _RESERVED for part in parts
        )
        and bool(parts)
    )
    if not harmless:
        raise _refused(name, say("“{entry}” would not stay in its folder or is no plain name", entry=shown))
    kind = stat.S_IFMT(info.external_attr >> 16)
    if kind not in (0, stat.S_IFREG, stat.S_IFDIR):
        raise _refused(name, say("“{entry}” is a link or a device", entry=shown))
    if info.flag_bits & 0x1:
        raise _refused(name, say("“{entry}” is encrypted", entry=shown))
    if info.compress_type not in (zipfile.ZIP_STORED, zipfile.ZIP_DEFLATED):
        raise _refused(name, say("“{entry}” is compressed in an unusual way", entry=shown))
    if info.file_size > max(1_000_000, info.compress_size * MOST_TIMES):
        raise _refused(name, say("“{entry}” would swell to {size} MB", entry=shown, size=info.file_size // 10**6))


def _refused(name: str, why: str) -> BadArchive:
    return BadArchive(say("“{file}” is not unpacked: {why}.", file=name, why=why))


def _shown(entry: str) -> str:
    return "".join(sign if sign.isprintable() else "?" for sign in entry)[:80]


def _taken_out(
    archive: zipfile.ZipFile,
    entries: dict[str, zipfile.ZipInfo],
    name: str,
    folder: Path,
    progress: Progress | None,
) -> Path:
    projects = [entry for entry in entries if entry.endswith(PROJECT_SUFFIX) and "/" not in entry]
    if len(projects) != 1:
        raise _refused(name, say("it holds {count} projects, one is expected", count=len(projects)))
    info = entries[projects[0]]
    if info.file_size > schema.LARGEST_BYTES:
        raise _refused(name, say("its project is too large"))
    target = io.BytesIO()
    _copy(archive, info, target, name)
    project = schema.decode(target.getvalue(), projects[0])
    draft = folder.parent / f".wallwright-{secrets.token_hex(8)}.tmp"
    try:
        draft.mkdir(parents=False)
        for done, picture in enumerate(project.pictures):
            if progress is not None and not progress(done, len(project.pictures)):
                raise Stopped
            found = entries.get(picture.path)
            if found is not None:
                _take_picture(archive, found, picture, draft, name)
        (draft / projects[0]).write_bytes(target.getvalue())
        if folder.exists():
            folder.rmdir()  # empty, as was seen before
        draft.replace(folder)
    finally:
        shutil.rmtree(draft, ignore_errors=True)
    return folder / projects[0]


def _take_picture(archive: zipfile.ZipFile, info: zipfile.ZipInfo, picture: Picture, draft: Path, name: str) -> None:
    target = draft / picture.path
    target.parent.mkdir(parents=True, exist_ok=True)
    with target.open("xb") as file:
        hashed = _copy(archive, info, file, name)
    if picture.sha256 is not None and hashed != picture.sha256:
        raise _refused(name, say("“{entry}” is another picture than the project knows", entry=_shown(picture.path)))


def _copy(archive: zipfile.ZipFile, info: zipfile.ZipInfo, target: BinaryIO, name: str) -> str:
    """An entry's content, counted while it comes: what it claims to be is not believed."""
    hashed, size = hashlib.sha256(), 0
    for block in _blocks(archive, info, name):
        size += len(block)
        if size > info.file_size:
            raise _refused(name, say("“{entry}” is longer than it says", entry=_shown(info.filename)))
        hashed.update(block)
        target.write(block)
    if size != info.file_size:
        raise _refused(name, say("“{entry}” is cut off", entry=_shown(info.filename)))
    return hashed.hexdigest()


def _blocks(archive: zipfile.ZipFile, info: zipfile.ZipInfo, name: str) -> Iterator[bytes]:
    """What the archive gives, block by block; an archive that leads nowhere also brings errors of the system."""
    try:
        with archive.open(info) as source:
            while block := source.read(_BLOCK):
                yield block
    except (zipfile.BadZipFile, zlib.error, EOFError, OSError, ValueError, NotImplementedError, RuntimeError) as error:
        raise _refused(name, say("“{entry}” is damaged", entry=_shown(info.filename))) from error
