"""Starts Wallwright: the window where there is a screen, else the paper; a call never loads Qt."""

import gc
import os
import sys
from pathlib import Path

from composer.texts import say

RESTARTED = "--no-screen"
"""Internal first word: Qt could not open a window, so the program started itself again without it."""


QT_PACKAGES = (
    "libgl1 libegl1 libfontconfig1 libglib2.0-0 libdbus-1-3 libxkbcommon-x11-0 "
    "libxcb-cursor0 libxcb-icccm4 libxcb-keysyms1 libxcb-shape0"
)
"""What a bare Debian lacks for a Qt window (found by installing one after the other on Debian 12 and 13)."""


def main(words: list[str] | None = None) -> int:
    """Runs the program and returns its exit code.

    Args:
        words: what stands after the program's name; None = as this process was called.
    """
    arguments = sys.argv[1:] if words is None else words
    try:
        return _run(arguments)
    except KeyboardInterrupt:
        return 130  # as shells count an interrupt: 128 + SIGINT


def _run(arguments: list[str]) -> int:
    if len(arguments) >= 2 and arguments[0] == RESTARTED:
        if arguments[1] == "libraries":
            return _say_what_to_install(say("Qt cannot open a window."))
        return _write_papers(*arguments[2:3])
    if _is_call(arguments):
        from composer.commandline import main as run_call

        return run_call(arguments)
    return _open(*arguments)


def _is_call(arguments: list[str]) -> bool:
    """A lone word that is a file, or looks like one, opens the window; all else is the command line's."""
    if not arguments:
        return False
    word = arguments[0]
    if len(arguments) > 1 or word.startswith("-"):
        return True
    looks_like_a_file = word.endswith(".wallwright") or Path(word).name != word
    if looks_like_a_file:
        return False
    from composer.commandline import CALLS

    return word in CALLS or not os.path.exists(word)


def _open(file: str | None = None) -> int:
    if not _may_have_a_screen():
        return _write_papers(file)
    gc.disable()  # nothing made while starting is garbage; the window switches it on once it is painted
    try:
        from composer.desktop.start import NoScreen, start_window
    except ImportError as problem:
        if "PySide6" not in str(problem) and problem.name is not None and problem.name.startswith("composer"):
            raise
        return _say_what_to_install(say("Qt cannot be loaded ({problem}).", problem=problem))
    try:
        return start_window(file, restart=[sys.executable, "-m", "composer", RESTARTED])
    except NoScreen:
        return _write_papers(file)


def _may_have_a_screen() -> bool:
    """False where a window is out of the question; what this cannot see, Qt finds out."""
    if sys.platform == "win32":
        return _windows_station_is_visible()
    if sys.platform == "darwin":
        return _mac_session_exists()
    return any(os.environ.get(name) for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"))


def _windows_station_is_visible() -> bool:
    """Services and remote shells have a window station without the flag WSF_VISIBLE (Windows documentation)."""
    if sys.platform != "win32":
        return True
    import ctypes
    from ctypes import wintypes

    class StationFlags(ctypes.Structure):
        _fields_ = (("inherit", wintypes.BOOL), ("reserved", wintypes.BOOL), ("flags", wintypes.DWORD))

    user_object_flags, visible = 1, 0x0001
    try:
        user = ctypes.WinDLL("user32")
        user.GetProcessWindowStation.restype = wintypes.HANDLE
        user.GetUserObjectInformationW.argtypes = (
            wintypes.HANDLE, ctypes.c_int, ctypes.c_void_p, wintypes.DWORD, ctypes.c_void_p,
        )  # fmt: skip
        found = StationFlags()
        station = user.GetProcessWindowStation()
        told = user.GetUserObjectInformationW(
            station, user_object_flags, ctypes.byref(found), ctypes.sizeof(found), None
        )
        return not told or bool(found.flags & visible)
    except (OSError, AttributeError):
        return True


def _mac_session_exists() -> bool:
    """Remote shells and daemons have no session with the window server (Quartz documentation)."""
    import ctypes

    try:
        quartz = ctypes.CDLL("/System/Library/Frameworks/CoreGraphics.framework/CoreGraphics")
        quartz.CGSessionCopyCurrentDictionary.restype = ctypes.c_void_p
        return quartz.CGSessionCopyCurrentDictionary() is not None
    except (OSError, AttributeError):
        return True


def _write_papers(file: str | None = None) -> int:
    from composer.commandline.paper_set import write_paper_set

    return write_paper_set(file)


def _say_what_to_install(problem: str) -> int:
    if sys.platform.startswith("linux"):
        text = say(
            "{problem} Install what it needs, on Debian or Ubuntu: sudo apt install {packages}"
            " — every other call works without it: wallwright --help",
            problem=problem,
            packages=QT_PACKAGES,
        )
    else:
        text = say("{problem} Every other call works without it: wallwright --help", problem=problem)
    from composer.commandline.answers import tell

    tell(text)
    return 3


if __name__ == "__main__":
    sys.exit(main())
