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
from tests.soak.hindrance import Broken, Done, Program
from tests.soak.quiet import WINDOW, home


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
