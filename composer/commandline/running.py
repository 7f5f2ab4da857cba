"""Runs a call and turns whatever goes wrong into one line and an exit code."""

import os
import sys
from collections.abc import Callable, Sequence
from importlib import import_module

from composer import __version__
from composer.commandline.answers import Exit, Refused, answer, tell
from composer.commandline.calls import BY_NAME, CALL_LIST, Call
from composer.commandline.near import suggestion
from composer.commandline.parsing import Given, parse
from composer.texts import say

_HELP = ("--help", "-h", "help")


def run(argv: Sequence[str]) -> int:
    """Runs the words after the program's name; see :func:`composer.commandline.main`."""
    try:
        return _run(list(argv))
    except BrokenPipeError:
        # Whoever read the answer has gone. Nothing more may be written, not even when Python ends.
        os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
        return Exit.DONE
    except Refused as refused:
        tell(f"wallwright: {refused}")
        return refused.code
    except Exception as error:
        if os.environ.get("WALLWRIGHT_TRACEBACK"):
            raise
        sentence, code = explained(error)
        tell(f"wallwright: {sentence}")
        return code


def _run(argv: list[str]) -> int:
    if not argv or argv[0] in _HELP:
        answer(_overview() if len(argv) < 2 or argv[1] not in BY_NAME else _help(BY_NAME[argv[1]]))
        return Exit.DONE
    if argv[0] == "--version":
        answer(f"wallwright {__version__}\n")
        return Exit.DONE
    call = BY_NAME.get(argv[0])
    if call is None:
        if argv[0].startswith("-"):
            hint = suggestion(argv[0], ["--help", "--version"])
            raise Refused(say("there is no option “{option}”. {hint}", option=argv[0][:40], hint=hint))
        if len(argv) > 1 and (argv[0].endswith(".wallwright") or os.path.exists(argv[0])):
            raise Refused(say("a file stands alone, to open it; “{word}” is one word too many.", word=argv[1][:60]))
        hint = suggestion(argv[0], BY_NAME)
        raise Refused(say("“{word}” is neither a call nor a file. {hint}", word=argv[0][:60], hint=hint))
    words = argv[1:]
    before_dashes = words[: words.index("--")] if "--" in words else words
    if "--help" in before_dashes or "-h" in before_dashes:
        answer(_help(call))
        return Exit.DONE
    if not call.run:
        raise Refused(say("{call} is not built yet.", call=call.name))
    given = parse(call, words)
    module, function = call.run.split(":")
    work: Callable[[Given], int] = getattr(import_module(f"composer.commandline.{module}"), function)
    try:
        return int(work(given))
    except BrokenPipeError:
        raise
    except Refused as refused:
        raise Refused(say("{call}: {sentence}", call=call.name, sentence=refused), refused.code) from None
    except Exception as error:
        if os.environ.get("WALLWRIGHT_TRACEBACK"):
            raise
        sentence, code = explained(error)
        raise Refused(say("{call}: {sentence}", call=call.name, sentence=sentence), code) from error


def explained(error: Exception) -> tuple[str, Exit]:
    """One sentence and the exit code for an error from below; modules that were not needed stay unloaded."""
    sentence = str(error)
    for module, name, code in _KNOWN:
        kind = getattr(sys.modules.get(module), name, None)
        if kind is not None and isinstance(error, kind):
            return sentence, code
    if isinstance(error, MemoryError):
        return say("there is not enough memory for that."), Exit.FILES
    if isinstance(error, OSError):
        reason = error.strerror or type(error).__name__
        return say("“{file}” cannot be used: {reason}.", file=error.filename or "", reason=reason), Exit.FILES
    return (
        say(
            "something in Wallwright went wrong ({kind}: {reason}); nothing was changed.",
            kind=type(error).__name__,
            reason=sentence[:200],
        ),
        Exit.FILES,
    )


_KNOWN = (
    ("composer.editing.edits", "PieceLocked", Exit.NO),
    ("composer.editing.edits", "EditRefused", Exit.WRONG),
    ("composer.projectfile.errors", "CannotRead", Exit.FILES),
    ("composer.projectfile.errors", "CannotWrite", Exit.FILES),
    ("composer.projectfile.errors", "ProjectFileError", Exit.WRONG),
    ("composer.paper.kinds", "NothingToPrint", Exit.NO),
    ("composer.paper.sheets", "BadSheet", Exit.WRONG),
    ("composer.paper.sheet_request", "SheetTooSmall", Exit.WRONG),
    ("composer.units.grammar", "BadQuantity", Exit.WRONG),
    ("composer.model.scalars", "BadRecord", Exit.WRONG),
)
"""Errors whose message is a finished sentence, most special first."""


def _overview() -> str:
    lines = [
        say(
            "Wallwright {version}: plans a picture wall to scale and prints the paper to hang it by.",
            version=__version__,
        ),
        "",
        "wallwright [FILE]",
        "    " + say("opens the window"),
    ]
    for call in CALL_LIST:
        lines += [f"wallwright {call.usage}", "    " + _does(call)]
    lines += [
        "",
        say('Lengths are written with their unit: 60cm, 1.2m, "2 3/8 in"; negative ones as --left=-5cm.'),
        say("Exit codes: 0 done · 1 the answer is no · 2 the call or its input is wrong · 3 cannot read or write."),
    ]
    return "\n".join(lines) + "\n"


def _help(call: Call) -> str:
    return f"wallwright {call.usage}\n    {_does(call)}\n"


def _does(call: Call) -> str:
    return say(call.does) if call.run else say("{does} (not built yet)", does=say(call.does))
