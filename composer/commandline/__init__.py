"""The program without its window: one call does one thing, reads and writes files, and ends."""

from collections.abc import Sequence

CALLS = (
    "new",
    "set",
    "add",
    "place",
    "arrange",
    "true-up",
    "report",
    "check",
    "paper",
    "export",
    "print-files",
)
"""Every call, also those whose work is still to come."""


def main(argv: Sequence[str]) -> int:
    """Runs one call: the words after the program's name.

    Returns:
        0 done · 1 the answer is no · 2 the call or its input is wrong · 3 cannot read or write.
    """
    from composer.commandline.running import run

    return run(argv)
