"""A save leaves the old project or the new one, whole, whatever happens in between."""

import errno
import hashlib
import os
import re
import stat
import subprocess
import sys
from pathlib import Path

import pytest

from composer.projectfile import store
from composer.projectfile.errors import (
    BadProject,
    CannotRead,
    CannotWrite,
    ChangedOnDisk,
    NotAProject,
    ProjectFileError,
)
from tests.projectfile import projects

ROOT = Path(__file__).resolve().parents[2]
posix = pytest.mark.skipif(os.name != "posix", reason="permissions, links and signals of POSIX")


def names(folder: Path) -> set[str]:
    return {entry.name for entry in folder.iterdir()}


def test_what_is_saved_is_loaded_with_the_files_digest(tmp_path: Path) -> None:
    path = tmp_path / "Flur – 1.json"
    digest = store.save(path, projects.full())
    opened = store.load(path)
    assert opened.project == projects.full()
    assert opened.digest == digest == hashlib.sha256(path.read_bytes()).hexdigest()
    assert names(tmp_path) == {path.name}


def test_the_file_replaced_stays_beside_it(tmp_path: Path) -> None:
    path = tmp_path / "wall.json"
    store.save(path, projects.plain(title="one"))
    first = path.read_bytes()
    for title in ("two", "three"):
        before = path.read_bytes()
        store.save(path, projects.plain(title=title))
        assert (tmp_path / "wall.json.bak").read_bytes() == before
    assert first != before
    assert names(tmp_path) == {"wall.json", "wall.json.bak"}


def test_without_hard_links_the_copy_is_still_kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def no_links(*_: object) -> None:
        raise OSError(errno.EPERM, "no links on this file system")

    monkeypatch.setattr(os, "link", no_links)
    path = tmp_path / "wall.json"
    store.save(path, projects.plain(title="one"))
    before = path.read_bytes()
    store.save(path, projects.plain(title="two"))
    assert (tmp_path / "wall.json.bak").read_bytes() == before
    assert names(tmp_path) == {"wall.json", "wall.json.bak"}


@posix
def test_a_copy_that_already_is_the_same_file_leaves_nothing_about(tmp_path: Path) -> None:
    """What a save killed between keeping and renaming leaves: two names of one file."""
    path = tmp_path / "wall.json"
    store.save(path, projects.plain(title="one"))
    os.link(path, tmp_path / "wall.json.bak")
    store.save(path, projects.plain(title="two"))
    assert store.load(tmp_path / "wall.json.bak").project.title == "one"
    assert names(tmp_path) == {"wall.json", "wall.json.bak"}


@posix
def test_permissions_stay_and_new_files_follow_the_persons_mask(tmp_path: Path) -> None:
    path = tmp_path / "wall.json"
    before = os.umask(0o027)
    try:
        store.save(path, projects.plain())
    finally:
        os.umask(before)
    assert stat.S_IMODE(path.stat().st_mode) == 0o640
    path.chmod(0o604)
    store.save(path, projects.plain(title="two"))
    assert stat.S_IMODE(path.stat().st_mode) == 0o604


@posix
def test_a_link_is_followed_and_stays_a_link(tmp_path: Path) -> None:
    (tmp_path / "real").mkdir()
    link = tmp_path / "wall.json"
    link.symlink_to(tmp_path / "real" / "wall.json")
    store.save(link, projects.plain())
    assert link.is_symlink()
    assert names(tmp_path / "real") == {"wall.json"}
    assert store.load(link).project == projects.plain()


def test_others_changes_are_not_overwritten(tmp_path: Path) -> None:
    path = tmp_path / "wall.json"
    mine = store.save(path, projects.plain(title="mine"))
    theirs = store.save(path, projects.plain(title="theirs"))
    with pytest.raises(ChangedOnDisk):
        store.save(path, projects.plain(title="mine again"), mine)
    assert store.load(path).project.title == "theirs"
    store.save(path, projects.plain(title="knowing it"), theirs)
    assert store.load(path).project.title == "knowing it"


def test_a_file_that_went_missing_is_written_again(tmp_path: Path) -> None:
    path = tmp_path / "wall.json"
    digest = store.save(path, projects.plain())
    path.unlink()
    assert store.save(path, projects.plain(), digest) == digest


def test_what_claims_to_be_a_project_is_told_from_other_files(tmp_path: Path) -> None:
    path = tmp_path / "wall.json"
    store.save(path, projects.plain())
    assert store.is_project(path)
    path.write_bytes(path.read_bytes()[:200])
    assert store.is_project(path)
    with pytest.raises(BadProject):
        store.load(path)
    path.write_text("name,width,height\n")
    assert not store.is_project(path)
    with pytest.raises(NotAProject):
        store.load(path)


def test_a_project_whose_file_would_not_read_back_is_not_written(tmp_path: Path) -> None:
    """A field set past the record's own checks, as a program's fault would do it."""
    import msgspec

    path = tmp_path / "wall.json"
    store.save(path, projects.plain())
    before = path.read_bytes()
    broken = projects.plain()
    msgspec.structs.force_setattr(broken, "title", "a\x07b")
    with pytest.raises(ProjectFileError):
        store.save(path, broken)
    assert path.read_bytes() == before
    assert names(tmp_path) == {"wall.json"}


@pytest.mark.parametrize("way", ["no-such-folder/wall.json", ".", "wall.json/inside.json", "nul\0name"])
def test_places_that_cannot_be_are_told_in_one_sentence(tmp_path: Path, way: str) -> None:
    (tmp_path / "wall.json").write_bytes(b"not a folder")
    path = tmp_path / way
    for act, error in (
        (lambda: store.load(path), CannotRead),
        (lambda: store.write_atomic(path, b"x"), CannotWrite),
    ):
        with pytest.raises(error) as caught:
            act()
        assert re.fullmatch(r"[^\n\0]+\.", str(caught.value))
    assert (tmp_path / "wall.json").read_bytes() == b"not a folder"
    assert names(tmp_path) == {"wall.json"}


def test_a_missing_file_is_told_by_name(tmp_path: Path) -> None:
    with pytest.raises(CannotRead, match=r"no file “.*wall\.json”"):
        store.load(tmp_path / "wall.json")


@posix
@pytest.mark.skipif(hasattr(os, "geteuid") and os.geteuid() == 0, reason="nothing is protected from root")
def test_protected_files_and_folders_are_told(tmp_path: Path) -> None:
    path = tmp_path / "wall.json"
    store.save(path, projects.plain())
    path.chmod(0o400)
    with pytest.raises(CannotWrite, match="protected"):
        store.save(path, projects.plain(title="two"))
    path.chmod(0)
    with pytest.raises(CannotRead, match="may not be read"):
        store.load(path)


@posix
def test_a_permission_refused_by_the_system_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object) -> None:
        raise PermissionError(errno.EACCES, "Permission denied")

    path = tmp_path / "wall.json"
    store.save(path, projects.plain())
    before = path.read_bytes()
    monkeypatch.setattr(Path, "replace", refuse)
    with pytest.raises(CannotWrite, match="protected"):
        store.write_atomic(path, b"new")
    assert path.read_bytes() == before
    assert names(tmp_path) == {"wall.json"}


FULL_DISK = """
import resource, sys
from composer.projectfile import store
from composer.projectfile.errors import CannotWrite
from tests.projectfile import projects
resource.setrlimit(resource.RLIMIT_FSIZE, (2000, 2000))
try:
    store.save(sys.argv[1], projects.plain(pieces=60, title="too long"))
except CannotWrite as error:
    print(error)
    sys.exit(7)
"""


@posix
def test_a_full_disk_leaves_the_old_project_and_no_litter(tmp_path: Path) -> None:
    """A file may not grow beyond 2 000 bytes in the child: the system refuses the write half way (EFBIG)."""
    path = tmp_path / "wall.json"
    store.save(path, projects.plain())
    before = path.read_bytes()
    child = subprocess.run(
        [sys.executable, "-c", FULL_DISK, str(path)],
        cwd=ROOT,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        check=False,
        timeout=120,
    )
    assert child.returncode == 7, child.stderr
    assert "disk is full" in child.stdout
    assert path.read_bytes() == before
    assert names(tmp_path) == {"wall.json"}


@posix
def test_a_save_killed_at_any_byte_or_step_leaves_a_whole_project() -> None:
    child = subprocess.run(
        [sys.executable, "-m", "tests.soak.kill_saves", "45", "7"],
        cwd=ROOT,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        capture_output=True,
        text=True,
        check=False,
        timeout=240,
    )
    assert child.returncode == 0, child.stdout + child.stderr


def test_a_picture_of_a_table_is_known_by_its_content_where_its_file_is_there(tmp_path: Path) -> None:
    from composer.projectfile import inventory

    (tmp_path / "scans").mkdir()
    (tmp_path / "scans" / "a b.jpg").write_bytes(b"abc")
    table = tmp_path / "frames.csv"
    table.write_text("name,width,height,picture,count\na,40,50,scans/a b.jpg,2\nb,40,50,scans/missing.jpg,\n")
    project = inventory.add_to(projects.plain(), inventory.read_table(table, "metric"), tmp_path)
    found, missing = project.pictures
    # SHA-256 of "abc": FIPS 180-4's own example.
    assert found.sha256 == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
    assert (found.path, found.size_bytes) == ("scans/a b.jpg", 3)
    assert (missing.path, missing.sha256, missing.size_bytes) == ("scans/missing.jpg", None, None)
    assert [piece.uses[0].picture for piece in project.pieces[2:]] == [found.key, found.key, missing.key]
