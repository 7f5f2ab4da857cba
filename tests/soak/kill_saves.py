"""Kills writers in the middle and looks at what is left: python -m tests.soak.kill_saves [COUNT] [SEED]

Each round writes another file over the one there, in a child that dies of SIGKILL at a place found by
chance. Afterwards the file must be the old one or the new one, whole, and the next write must go through.
"""

import os
import random
import sys
import tempfile
from collections import Counter
from collections.abc import Callable
from pathlib import Path

from composer.model import Project
from composer.projectfile import store
from composer.projectfile.schema import encode
from tests.projectfile import projects
from tests.soak.dying import dies

Seen = Counter[tuple[str, str]]
"""How the rounds went: killed or ended well, and which of the two files was found."""


class Broken(AssertionError):
    """What was found after a kill is neither the old file nor the new one."""


def saves(count: int, seed: int) -> Seen:
    """Kills saves of a project; its ``.bak`` must be whole, too."""
    chance, seen = random.Random(seed), Seen()
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "wall.wallwright"
        old = projects.plain(pieces=60, title="round 0")
        store.save(path, old)
        for number in range(1, count + 1):
            new = projects.plain(pieces=chance.randint(1, 120), title=f"round {number}")
            killed = dies(_saving(path, new), chance, len(encode(new)), by_step=number % 3 == 0)
            found = store.load(path).project
            if found not in (old, new):
                raise Broken(f"round {number}: the file is neither the old project nor the new one")
            backup = path.with_name("wall.wallwright.bak")
            if backup.exists():
                store.load(backup)
            _note(seen, killed=killed, new=found == new)
            old = found
        store.save(path, old)
    return seen


def _saving(path: Path, project: Project) -> Callable[[], object]:
    return lambda: store.save(path, project)


def papers(count: int, seed: int) -> Seen:
    """Kills the call that writes a PDF and its index; each of the two is the old or the new one."""
    from composer.commandline import main as call

    chance, seen = random.Random(seed), Seen()
    with tempfile.TemporaryDirectory() as scratch:
        folder = Path(scratch)
        walls = [folder / f"{number}.wallwright" for number in range(2)]
        wanted = []
        for number, wall in enumerate(walls):
            store.save(wall, _hung(pieces=3 + number))
            words = ["paper", str(wall), "templates", "-o", str(folder / "t.pdf"), "--index", str(folder / "t.json")]
            if call(words):
                raise AssertionError("the paper cannot be made at all")
            wanted.append(((folder / "t.pdf").read_bytes(), (folder / "t.json").read_bytes()))
        size = sum(map(len, wanted[0]))
        for number in range(1, count + 1):
            words = ["paper", str(walls[number % 2]), "templates"]
            words += ["-o", str(folder / "t.pdf"), "--index", str(folder / "t.json")]
            killed = dies(lambda words=words: call(words), chance, size, by_step=number % 3 == 0)  # type: ignore[misc]
            found = ((folder / "t.pdf").read_bytes(), (folder / "t.json").read_bytes())
            for place in range(2):
                if found[place] not in (wanted[0][place], wanted[1][place]):
                    raise Broken(f"round {number}: the paper is neither the old nor the new one")
            _note(seen, killed=killed, new=found == wanted[number % 2])
    return seen


def _hung(pieces: int) -> Project:
    from composer.editing.placing import Spot, put

    project = projects.plain(pieces=pieces)
    spots = {piece.key: Spot("w1", 450.0 * place, 900.0) for place, piece in enumerate(project.pieces)}
    return put(project, spots).run(project)


def recovery_copies(count: int, seed: int) -> Seen:
    """Kills the writing of recovery copies; a whole copy is offered each time, once there was one."""
    from composer.desktop.open_project import OpenProject
    from composer.desktop.recovery import Recovery, left_behind

    chance, seen = random.Random(seed), Seen()
    for number in range(1, count + 1):
        with tempfile.TemporaryDirectory() as scratch:
            folder = Path(scratch) / "recovery"
            first = projects.plain(pieces=chance.randint(1, 60), title="first")
            second = projects.plain(pieces=chance.randint(1, 60), title="second")
            original = Path(scratch) / "wall.wallwright"
            store.save(original, first)
            recovery = Recovery(OpenProject(first, original), folder)
            dies(_copying(recovery, first), random.Random(0), 10**9, by_step=False)
            killed = dies(_copying(recovery, second), chance, len(encode(second)), by_step=number % 3 != 1, steps=30)
            offered = left_behind(folder)
            if len(offered) != 1 or offered[0].original != original:
                raise Broken(f"round {number}: {len(offered)} copies are offered")
            found = store.load(offered[0].copy).project
            if found not in (first, second) or store.load(original).project != first:
                raise Broken(f"round {number}: the copy is neither the old project nor the new one")
            _note(seen, killed=killed, new=found == second)
    return seen


def packed_copies(count: int, seed: int) -> Seen:
    """Kills the packing of a project with its pictures; the copy there is the old one or the new one, and unpacks."""
    from msgspec.structs import replace

    from composer.model import Picture
    from composer.projectfile.packed import pack, unpack

    chance, seen = random.Random(seed), Seen()
    with tempfile.TemporaryDirectory() as scratch:
        folder, target = Path(scratch), Path(scratch) / "copy.zip"
        for number in range(2):
            (folder / f"{number}.jpg").write_bytes(random.Random(number).randbytes(30_000))
        linked = tuple(Picture(key=f"i{number + 3}", path=f"{number}.jpg") for number in range(2))
        plain = replace(projects.plain(), pictures=linked)
        titled = [replace(plain, title=f"round {number % 2}") for number in range(2)]
        wanted = []
        for project in titled:
            pack(project, folder, target)
            wanted.append(target.read_bytes())
        for number in range(1, count + 1):
            project = titled[number % 2]
            killed = dies(_packing(project, folder, target), chance, 60_000, by_step=number % 3 == 0)
            found = target.read_bytes()
            if found not in wanted:
                raise Broken(f"round {number}: the copy is neither the old one nor the new one")
            if number % 50 == 0:
                place = folder / f"unpacked {number}"
                if store.load(unpack(target, place)).project.title not in ("round 0", "round 1"):
                    raise Broken(f"round {number}: the copy holds something else")
            _note(seen, killed=killed, new=found == wanted[number % 2])
    return seen


def _packing(project: Project, folder: Path, target: Path) -> Callable[[], object]:
    from composer.projectfile.packed import pack

    return lambda: pack(project, folder, target)


def _copying(recovery: object, project: Project) -> Callable[[], object]:
    note = '{"original": "%s", "digest": null, "pid": 1}' % recovery._opened.path  # type: ignore[attr-defined] # noqa: UP031
    return lambda: recovery._write(project, note)  # type: ignore[attr-defined]


def _note(seen: Seen, *, killed: bool, new: bool) -> None:
    seen["killed" if killed else "ended well", "new" if new else "old"] += 1


def reached_everything(seen: Seen) -> bool:
    """Whether the rounds died before, within and after the change of files."""
    return {"killed", "ended well"} <= {how for how, _ in seen} and {"old", "new"} <= {
        found for how, found in seen if how == "killed"
    }


def told(seen: Seen) -> str:
    """The rounds in words."""
    return ", ".join(f"{how} and {found} {times}" for (how, found), times in sorted(seen.items()))


def main(count: int, seed: int) -> int:
    """Kills saves; 0 when every round left a whole project."""
    try:
        seen = saves(count, seed)
    except Broken as broken:
        print(broken)
        return 1
    print(f"{count} saves, seed {seed}: {told(seen)}")
    if count >= 30 and not reached_everything(seen):
        print("the rounds did not reach before, within and after the change of files")
        return 1
    return 0


if __name__ == "__main__":
    os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
    numbers = [int(argument) for argument in sys.argv[1:]]
    sys.exit(main(*(numbers + [500, 1][len(numbers) :])))
