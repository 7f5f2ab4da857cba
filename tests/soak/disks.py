"""Full, read-only and vanished disks and folders, permissions lost, settings that take no writing, clocks set back."""

import os
import random
import shutil
import subprocess
import time
from collections.abc import Callable
from pathlib import Path

from composer.projectfile import store
from composer.projectfile.errors import CannotWrite
from tests.soak.hindrance import (
    ROOT,
    Broken,
    Program,
    can_mount,
    contents,
    small_disk,
    unchanged,
    without_privilege,
)

SAMPLE = ROOT / "samples" / "sofa-wall.wallwright"
TABLE = ROOT / "samples" / "second-hand-frames.csv"


class LeftOut(Exception):
    """The fault cannot be made on this machine; the message says why."""


def writing_calls(file: Path) -> list[tuple[object, ...]]:
    """Calls of every kind that writes."""
    folder = file.parent
    return [
        ("set", file, f"title={'New ' * 20}"),
        ("place", file, 7, "--left=10cm", "--bottom=1m"),
        ("add", file, "pieces", TABLE),
        ("new", folder / "new.wallwright", "--wall-width=3m", "--wall-height=2m", "--pieces", TABLE),
        ("export", file, "-o", folder / "o.csv"),
        ("export", file, "-o", folder / "o.svg"),
        ("export", file, "-o", folder / "o.png"),
        ("paper", file, "templates", "-o", folder / "t.pdf", "--index", folder / "t.json"),
    ]


def full_disk(tries: int) -> str:
    """A disk with a few kilobytes left, another number each time: the old files or the new ones, nothing else."""
    if not can_mount():
        raise LeftOut("mounting needs Linux and the right to make a namespace")
    chance, said = random.Random(1), ""
    work = Path(os.environ["WALLWRIGHT_SOAK_FOLDER"]) / "disk"
    for number in range(tries):
        with small_disk(work, 400) as disk:
            file = disk / "wall.wallwright"
            file.write_bytes(SAMPLE.read_bytes())
            (disk / "filler").write_bytes(b"x" * 1024 * chance.randint(330, 400 - len(SAMPLE.read_bytes()) // 1024 - 8))
            before = contents(disk)
            words = writing_calls(file)[number % 8]
            done = Program().call(*words)
            store.load(file)
            if done.code == 0:
                (disk / "filler").unlink()
                continue
            said = done.refused(3, "the disk is full", "cannot be made")
            after = contents(disk)
            if words[0] == "paper":  # the index is a file of its own
                after.pop("t.json", None)
            if after != before:
                raise Broken(f"{words[0]}: left {sorted(set(after) ^ set(before))}")
    return said


def full_disk_without_mounting(tries: int) -> str:
    """Files may not grow beyond a limit: the system refuses a write half way (EFBIG)."""
    if os.name != "posix":
        raise LeftOut("a limit on the size of files is POSIX")
    chance, said = random.Random(2), ""
    folder = Path(os.environ["WALLWRIGHT_SOAK_FOLDER"]) / "limit"
    for number in range(tries):
        folder.mkdir()
        file = folder / "wall.wallwright"
        file.write_bytes(SAMPLE.read_bytes())
        before = contents(folder)
        kilobytes = chance.choice([0, 1, 2, 3])
        # The shell counts a file's size in blocks of 512 or 1024 bytes; either is too little.
        limited = ["sh", "-c", f'ulimit -f {kilobytes}; trap "" XFSZ; exec "$@"', "sh"]
        done = Program(prefix=limited).call(*writing_calls(file)[number % 8])
        store.load(file)
        if done.code != 0:
            said = done.refused(3, "the disk is full")
            after = contents(folder)
            after.pop("t.json", None)
            if after != before:
                raise Broken(f"left {sorted(set(after) ^ set(before))}")
        shutil.rmtree(folder)
    return said


def read_only_disk(tries: int) -> str:
    """Everything that reads works; everything that writes there is refused."""
    if not can_mount():
        raise LeftOut("mounting needs Linux and the right to make a namespace")
    said = ""
    with small_disk(Path(os.environ["WALLWRIGHT_SOAK_FOLDER"]) / "disk", 400) as disk:
        file = disk / "wall.wallwright"
        file.write_bytes(SAMPLE.read_bytes())
        before = contents(disk)
        subprocess.run(["mount", "-o", "remount,ro", str(disk)], check=True)
        for number in range(tries):
            said = Program().call(*writing_calls(file)[number % 8]).refused(3)
        target = disk.parent / "o.pdf"
        for words in (("report", file), ("check", file), ("paper", file, "templates", "-o", target)):
            Program().call(*words).done()
        unchanged(disk, before)
    return said


def read_only_folder(tries: int) -> str:
    """As above, by permission."""
    return _with_permission(tries, lambda folder, _: folder.chmod(0o555), reads=True)


def unreadable_file(tries: int) -> str:
    """The project may not even be read any more."""
    return _with_permission(tries, lambda _, file: file.chmod(0o000), reads=False)


def protected_file(tries: int) -> str:
    """The project may be read but not written; exports beside it are welcome."""
    return _with_permission(tries, lambda _, file: file.chmod(0o444), reads=True, only=("set", "place", "add"))


def _with_permission(tries: int, take: Callable[[Path, Path], None], *, reads: bool, only: tuple[str, ...] = ()) -> str:
    prefix = without_privilege()
    if prefix is None:
        raise LeftOut("permissions do not bind whoever runs this")
    program, said = Program(prefix=prefix), ""
    folder = Path(os.environ["WALLWRIGHT_SOAK_FOLDER"]) / "kept"
    folder.mkdir()
    try:
        file = folder / "wall.wallwright"
        file.write_bytes(SAMPLE.read_bytes())
        before = contents(folder)
        take(folder, file)
        calls = [words for words in writing_calls(file) if (not only or words[0] in only)]
        for number in range(tries):
            words = calls[number % len(calls)]
            if words[0] == "new" and not reads:
                continue
            said = program.call(*words).refused(3)
        if reads:
            program.call("report", file).done()
        else:
            program.call("report", file).refused(3, "may not be read")
        folder.chmod(0o755)
        file.chmod(0o644)
        unchanged(folder, before)
    finally:
        folder.chmod(0o755)
        shutil.rmtree(folder)
    return said


def vanished_folder(tries: int) -> str:
    """The folder goes while the project is open, or is the one the program stands in."""
    said = ""
    for number in range(tries):
        folder = Path(os.environ["WALLWRIGHT_SOAK_FOLDER"]) / "gone"
        folder.mkdir()
        file = folder / "wall.wallwright"
        file.write_bytes(SAMPLE.read_bytes())
        if number % 2:
            project = store.load(file).project
            shutil.rmtree(folder)
            try:
                store.save(file, project)
            except CannotWrite as refused:
                said = str(refused)
            else:
                raise Broken("a save into a folder that is gone succeeded")
            if folder.exists():
                raise Broken("the folder was made again")
            continue
        script = f'rm -r "{folder}"; exec "$@"'
        for words in (("report", "wall.wallwright"), ("set", "wall.wallwright", "title=x")):
            folder.mkdir(exist_ok=True)
            said = Program(prefix=["sh", "-c", script, "sh"], folder=folder).call(*words).refused(3)
    return said


def unwritable_settings(tries: int) -> str:
    """Home, cache and settings cannot be written: no call minds, and the paper set is written all the same."""
    prefix = without_privilege()
    if prefix is None:
        raise LeftOut("permissions do not bind whoever runs this")
    base = Path(os.environ["WALLWRIGHT_SOAK_FOLDER"])
    closed, work = base / "closed", base / "open"
    closed.mkdir(mode=0o555)
    work.mkdir()
    try:
        homes = dict.fromkeys(
            ("HOME", "XDG_CACHE_HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_STATE_HOME"), str(closed)
        )
        program = Program(prefix=prefix, folder=work, environment=homes)
        (work / "wall.wallwright").write_bytes(SAMPLE.read_bytes())
        for number in range(tries):
            words = writing_calls(work / "wall.wallwright")[number % 8]
            (work / "new.wallwright").unlink(missing_ok=True)
            program.call(*words).done()
        program.call("wall.wallwright").done()
        if list(closed.iterdir()):
            raise Broken("something was written into a folder that takes no writing")
    finally:
        shutil.rmtree(closed)
        shutil.rmtree(work)
    return ""


def clock_set_back(tries: int) -> str:
    """Project, copies, locks and drafts are from tomorrow: all is read and written, nothing is thrown away."""
    folder = Path(os.environ["WALLWRIGHT_SOAK_FOLDER"]) / "tomorrow"
    folder.mkdir()
    try:
        file = folder / "wall.wallwright"
        file.write_bytes(SAMPLE.read_bytes())
        draft = folder / ".wallwright-0123456789abcdef.tmp"
        draft.write_bytes(b"a save under way")
        Program().call("set", file, "title=first").done()
        for number in range(tries):
            later = time.time() + 86_400 * (number + 1)
            for path in folder.iterdir():
                os.utime(path, (later, later))
            old = file.read_bytes()
            Program().call("set", file, f"title=round {number}").done()
            if store.load(file).project.title != f"round {number}":
                raise Broken("the change is not in the file")
            if file.with_name("wall.wallwright.bak").read_bytes() != old:
                raise Broken("the copy is not the file that was replaced")
            if not draft.exists():
                raise Broken("a draft that may belong to a save under way was swept")
    finally:
        shutil.rmtree(folder)
    return ""
