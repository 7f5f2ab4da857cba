"""What cannot be read or written ends in 3 with one line, and leaves everything as it was.

Each case takes the hindrance from the system itself: a lock held by another process, a limit on the size
of files, a folder without permission, a pipe nobody reads.
"""

import os
import subprocess
import sys
from pathlib import Path

import pytest

from composer.commandline import main
from tests.commandline.refusals import Call, all_bytes, assert_one_line
from tests.soak.hindrance import Program, without_privilege

ROOT = Path(__file__).resolve().parents[2]
posix = pytest.mark.skipif(os.name != "posix", reason="POSIX limits and permissions")

HOLD = """
import sys
from composer.projectfile.lock import ProjectLock
with ProjectLock(sys.argv[1]):
    print("held", flush=True)
    sys.stdin.read()
"""


def python(*words: str | Path) -> "subprocess.Popen[str]":
    return subprocess.Popen(
        [sys.executable, *map(str, words)],
        cwd=ROOT,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )


def test_a_project_open_elsewhere_names_its_holder(file: Path, call: Call) -> None:
    table = file.parent / "t.csv"
    table.write_text("name,width,height\nOne,10cm,10cm\n", encoding="utf-8")
    before = all_bytes(file.parent)
    with python("-c", HOLD, file) as holder:
        assert holder.stdout is not None
        assert holder.stdout.readline() == "held\n"
        for words in (
            ("set", file, "title=New"),
            ("place", file, "1", "--left=1cm", "--bottom=1cm"),
            ("add", file, "pieces", table),
            ("add", file, "wall", "Hall", "--width=1m", "--height=1m"),
        ):
            answer = call(*words)
            assert (answer.code, answer.out) == (3, ""), words
            assert_one_line(answer.err)
            assert f"process {holder.pid}" in answer.err
            assert file.name in answer.err
        # Reading needs no lock, and another name is nobody's.
        assert call("report", file).code == 0
        assert call("export", file, "-o", file.with_suffix(".csv")).code == 0
        assert call("set", file, "title=New", "-o", file.parent / "copy.wallwright").code == 0
        # OUT is locked, too, while somebody works on it.
        assert call("set", file.parent / "copy.wallwright", "title=Other", "-o", file).code == 3
        holder.communicate("", timeout=60)
    assert {name: data for name, data in all_bytes(file.parent).items() if name in before} == before
    assert call("set", file, "title=New").code == 0


SMALL = "import resource, sys; resource.setrlimit(resource.RLIMIT_FSIZE, (150, 150)); import runpy;"
RUN = SMALL + " sys.argv[0] = 'wallwright'; runpy.run_module('composer', run_name='__main__')"


@posix
@pytest.mark.parametrize(
    "words",
    [
        ("set", "FILE", "title=New"),
        ("new", "OUT.wallwright", "--wall-width=1m", "--wall-height=1m"),
        ("paper", "FILE", "measure", "-o", "OUT.pdf"),
        ("export", "FILE", "-o", "OUT.csv"),
        ("export", "FILE", "-o", "OUT.svg"),
        ("export", "FILE", "-o", "OUT.png"),
    ],
    ids=lambda words: f"{words[0]} {words[-1]}",
)
def test_a_full_disk(words: tuple[str, ...], file: Path) -> None:
    """Files may not grow beyond 150 bytes: the system refuses the write half way (EFBIG)."""
    before = all_bytes(file.parent)
    names = {"FILE": str(file)}
    places = [names.get(word, str(file.parent / word) if word.startswith("OUT") else word) for word in words]
    with python("-c", RUN, *places) as child:
        out, err = child.communicate(timeout=120)
    assert (child.returncode, out) == (3, ""), err
    assert_one_line(err)
    assert "the disk is full" in err
    assert all_bytes(file.parent) == before


@posix
@pytest.mark.parametrize(("what", "mode"), [("folder", 0o555), ("file", 0o444), ("file", 0o000)])
def test_permission_lost(what: str, mode: int, file: Path) -> None:
    """The superuser runs it without the privilege to pass over permissions (capabilities(7))."""
    prefix = without_privilege()
    if prefix is None:
        pytest.skip("permissions do not bind whoever runs this")
    program, before = Program(prefix=prefix), all_bytes(file.parent)
    target = file if what == "file" else file.parent
    usual = target.stat().st_mode
    target.chmod(mode)
    try:
        program.call("set", file, "title=New").refused(3)
        if what == "folder":
            program.call("export", file, "-o", file.with_suffix(".csv")).refused(3, "protected")
        if mode:
            program.call("report", file).done()
        else:
            program.call("report", file).refused(3, "may not be read")
    finally:
        target.chmod(usual)
    assert all_bytes(file.parent) == before


@posix
def test_nobody_reads_the_answer(file: Path) -> None:
    """The reader of the pipe is gone: no traceback, no complaint of Python at its end."""
    with python("-m", "composer", "report", file) as child:
        assert child.stdout is not None
        assert child.stderr is not None
        child.stdout.close()
        err = child.stderr.read()
        code = child.wait(60)
    assert (code, err) == (0, "")


@posix
@pytest.mark.parametrize(
    ("words", "closed", "code"),
    [
        ("report FILE", ">&-", 3),
        ("check FILE", ">&-", 3),
        ("set FILE title=New", ">&- 2>&-", 0),
        ("report nowhere", "2>&-", 3),
        ("report FILE --wall x", ">&- 2>&-", 2),
    ],
)
def test_closed_streams(words: str, closed: str, code: int, file: Path) -> None:
    """POSIX shells close a stream with ``>&-``; Python then has None in its place."""
    done = subprocess.run(
        ["sh", "-c", f'exec "$@" {closed}', "sh", sys.executable, "-m", "composer"]
        + [str(file) if word == "FILE" else word for word in words.split()],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
        timeout=60,
    )
    assert (done.returncode, done.stdout) == (code, "")
    if "2>&-" in closed:
        assert done.stderr == ""
    else:
        assert_one_line(done.stderr)
        assert "standard output is closed" in done.stderr


@posix
def test_a_full_standard_output_is_told(file: Path) -> None:
    """The device that is always full (Linux, full(4)) stands for an answer redirected to a full disk."""
    if not Path("/dev/full").exists():
        pytest.skip("no /dev/full here")
    with (
        open("/dev/full", "w") as full,  # noqa: PTH123
        subprocess.Popen(
            [sys.executable, "-m", "composer", "report", str(file)],
            cwd=ROOT,
            stdout=full,
            stderr=subprocess.PIPE,
            text=True,
        ) as child,
    ):
        err = child.communicate(timeout=60)[1]
    assert child.returncode == 3, err
    assert_one_line(err)


def test_an_interrupt_ends_as_shells_expect(monkeypatch: pytest.MonkeyPatch, file: Path) -> None:
    """130 = 128 + SIGINT, as POSIX shells report it; nothing is said."""
    from composer.__main__ import main as program

    def interrupted(*_: object) -> int:
        raise KeyboardInterrupt

    monkeypatch.setattr("composer.commandline.showing.report", interrupted)
    assert program(["report", str(file)]) == 130
    with pytest.raises(KeyboardInterrupt):
        main(["report", str(file)])
