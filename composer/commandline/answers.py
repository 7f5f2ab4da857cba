"""Where an answer goes: standard output for it alone, standard error for everything said about it."""

import sys
from enum import IntEnum

from composer.texts import one_line, say


class Exit(IntEnum):
    """Exit codes of the program."""

    DONE = 0
    NO = 1
    WRONG = 2
    """The call or its input is wrong."""
    FILES = 3
    """Something cannot be read or written."""


class Refused(Exception):
    """The call ends here; the message is one finished sentence.

    Attributes:
        code: what the program ends with.
    """

    def __init__(self, sentence: str, code: Exit = Exit.WRONG) -> None:
        super().__init__(sentence)
        self.code = code


def answer(text: str) -> None:
    """Prints the answer as UTF-8 with plain line feeds, whatever the terminal's own settings are.

    Raises:
        Refused: standard output is closed.
    """
    out = sys.stdout
    if out is None:
        raise Refused(say("the answer has nowhere to go: standard output is closed."), Exit.FILES)
    raw = getattr(out, "buffer", None)
    if raw is None:
        out.write(text)
    else:
        out.flush()
        raw.write(text.encode("utf-8", "replace"))
        raw.flush()


def tell(sentence: str) -> None:
    """Prints one line about the call on standard error; where that is closed the exit code has to do."""
    if sys.stderr is None:
        return
    line = one_line(sentence) + "\n"
    encoding = getattr(sys.stderr, "encoding", None) or "utf-8"
    sys.stderr.write(line.encode(encoding, "backslashreplace").decode(encoding))
