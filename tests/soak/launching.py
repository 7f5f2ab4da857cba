"""The window opens and closes, leaves nothing running, and forgets what was undone."""

import contextlib
import os
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Iterator
from pathlib import Path

from tests.soak.disks import LeftOut
from tests.soak.hindrance import Broken, Done, Program, can_mount, without_privilege
from tests.soak.quiet import WINDOW, closed_window, home


def launches(tries: int) -> str:
    """The window comes up on a screen, is closed as a person closes it, and ends with 0 and nothing left running."""
    for tool in ("Xvfb", "xdotool", "openbox"):
        if shutil.which(tool) is None:
            raise LeftOut(f"there is no {tool} here")
    with home("launched") as (folder, homes), _screen() as display:
        before = {path.name for path in folder.iterdir()}
        for number in range(tries):
            program = Program(folder=folder, environment=homes | {"DISPLAY": display})
            child = subprocess.Popen(
                program.command("wall.wallwright"),
                cwd=folder,
                env=program.variables(),
                stdin=subprocess.DEVNULL,
                stdout=subprocess.PIPE,
                stderr=subprocess.PIPE,
                text=True,
                start_new_session=True,
            )
            try:
                window = _window_of(child, display)
                keys = ["xdotool", "windowactivate", "--sync", window, "key", "--clearmodifiers", "alt+F4"]
                subprocess.run(keys, env={**os.environ, "DISPLAY": display}, check=True)
                out, err = child.communicate(timeout=60)
            finally:
                child.kill()
            done = Done(("launch", str(number)), child.returncode, out, err)
            if done.code or done.out or done.err:
                raise Broken(f"launch {number}: exit {done.code}, said {(out + err)[-300:]!r}")
            if left := _session(child.pid):
                raise Broken(f"launch {number}: processes {left} still run")
        after = {path.name for path in folder.iterdir() if not path.name.endswith(".lock")}
        if after != before:
            raise Broken(f"left beside the project: {sorted(after - before)}")
    return ""


@contextlib.contextmanager
def _screen() -> Iterator[str]:
    read, write = os.pipe()
    server = subprocess.Popen(
        ["Xvfb", "-displayfd", str(write), "-screen", "0", "1440x900x24", "-nolisten", "tcp"],
        pass_fds=[write],
        stderr=subprocess.DEVNULL,
    )
    os.close(write)
    manager: subprocess.Popen[bytes] | None = None
    try:
        number = b""
        while not number.endswith(b"\n"):
            number += os.read(read, 16)
        display = f":{int(number)}"
        manager = subprocess.Popen(
            ["openbox"], env={**os.environ, "DISPLAY": display}, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
        )
        time.sleep(1)
        yield display
    finally:
        os.close(read)
        if manager is not None:
            manager.terminate()
            manager.wait(30)
        server.terminate()
        server.wait(30)


def _window_of(child: "subprocess.Popen[str]", display: str) -> str:
    end = time.monotonic() + 60
    while time.monotonic() < end and child.poll() is None:
        found = subprocess.run(
            ["xdotool", "search", "--onlyvisible", "--pid", str(child.pid), "--name", "wall"],
            env={**os.environ, "DISPLAY": display},
            capture_output=True,
            text=True,
            check=False,
        )
        if found.stdout.strip():
            time.sleep(0.3)  # until it is painted and recovery was looked for
            return found.stdout.split()[0]
        time.sleep(0.05)
    raise Broken(f"no window came up; {child.poll()}")


def _session(leader: int) -> list[int]:
    """Processes of the session that process led."""
    left = []
    for entry in Path("/proc").iterdir() if Path("/proc").is_dir() else ():
        if entry.name.isdigit():
            with contextlib.suppress(OSError, ProcessLookupError, PermissionError):
                if os.getsid(int(entry.name)) == leader:
                    left.append(int(entry.name))
    for pid in left:
        with contextlib.suppress(OSError):
            os.kill(pid, signal.SIGTERM)
    return left


def unwritable_settings(tries: int) -> str:
    """Nothing of the person's own folders takes writing: the window opens, closes, and says nothing but its sentence."""
    prefix = without_privilege()
    if prefix is None:
        raise LeftOut("permissions do not bind whoever runs this")
    with home("closed") as (folder, homes):
        places = [Path(place) for name, place in homes.items() if name not in ("TMPDIR", "XDG_RUNTIME_DIR")]
        for place in places:
            place.chmod(0o555)
        before = {path for place in places for path in place.iterdir()}
        try:
            for _ in range(tries):
                closed_window(Program(prefix=prefix, folder=folder, environment=homes | WINDOW))
        finally:
            for place in places:
                place.chmod(0o755)
        if made := {path for place in places for path in place.iterdir()} - before:
            raise Broken(f"written all the same: {sorted(map(str, made))}")
    return ""


QT_LIBRARIES = {
    "libGL.so.1": "libgl1",
    "libEGL.so.1": "libegl1",
    "libfontconfig.so.1": "libfontconfig1",
    "libglib-2.0.so.0": "libglib2.0-0",
    "libdbus-1.so.3": "libdbus-1-3",
    "libxkbcommon-x11.so.0": "libxkbcommon-x11-0",
    "libxcb-cursor.so.0": "libxcb-cursor0",
    "libxcb-icccm.so.4": "libxcb-icccm4",
    "libxcb-keysyms.so.1": "libxcb-keysyms1",
    "libxcb-shape.so.0": "libxcb-shape0",
}
"""System libraries a window needs, and the package each is in (Debian 12 and 13, packages.debian.org)."""


def without_library(tries: int) -> str:
    """Each library hidden in turn: with a screen one sentence names its package, without one the paper is written."""
    if not can_mount() or shutil.which("Xvfb") is None or shutil.which("openbox") is None:
        raise LeftOut("hiding a library needs Linux, the right to mount, and a screen to miss it on")
    found = subprocess.run(["ldconfig", "-p"], capture_output=True, text=True, check=True).stdout
    said = ""
    with home("bare") as (folder, homes), _screen() as display:
        for name in list(QT_LIBRARIES)[:tries]:
            place = next((line.split(" => ")[1] for line in found.splitlines() if line.split()[:1] == [name]), None)
            if place is None:
                continue
            with _hidden(Path(place)):
                program = Program(folder=folder, environment=homes | {"DISPLAY": display})
                done = program.call("wall.wallwright")
                if done.code != 3 or done.out or done.err.count("\n") != 1 or QT_LIBRARIES[name] not in done.err:
                    raise Broken(f"without {name}: exit {done.code}, said {done.err[-300:]!r}")
                said = done.err.strip()
                Program(folder=folder, environment=homes).call("wall.wallwright").done()
                program.call("report", "wall.wallwright").done()
    return f"{said[:110]}…"


@contextlib.contextmanager
def _hidden(library: Path) -> Iterator[None]:
    """The folder of a library as if that one had never been installed (an overlay, gone afterwards)."""
    folder, layers = library.parent, Path(os.environ["WALLWRIGHT_SOAK_FOLDER"]) / "layers"
    layers.mkdir()
    subprocess.run(["mount", "-t", "tmpfs", "tmpfs", str(layers)], check=True)
    try:
        for name in ("upper", "work"):
            (layers / name).mkdir()
        options = f"lowerdir={folder},upperdir={layers}/upper,workdir={layers}/work"
        subprocess.run(["mount", "-t", "overlay", "overlay", "-o", options, str(folder)], check=True)
        try:
            for file in folder.glob(f"{library.name}*"):
                file.unlink()
            yield
        finally:
            subprocess.run(["umount", "-l", str(folder)], check=True)
    finally:
        subprocess.run(["umount", "-l", str(layers)], check=True)
        layers.rmdir()


def edits_and_undos(tries: int) -> str:
    """As many edits, then as many undos: the project is the first one again and no objects have gathered."""
    with home("edited") as (folder, homes):
        program = Program(folder=folder, environment=homes | WINDOW)
        done = subprocess.run(
            [sys.executable, "-m", "tests.soak.window_child", "edit", "wall.wallwright", str(tries)],
            cwd=folder,
            env=program.variables(),
            stdin=subprocess.DEVNULL,
            capture_output=True,
            text=True,
            check=False,
            timeout=600,
        )
    if done.returncode:
        raise Broken(f"exit {done.returncode}: {done.stderr[-300:]!r}")
    before, after, grown_kb, same = done.stdout.split()
    if same != "same":
        raise Broken("after all undos the project is another one")
    if int(after) - int(before) > 200:
        raise Broken(f"{int(after) - int(before)} objects more than before ({grown_kb} kB)")
    return ""
