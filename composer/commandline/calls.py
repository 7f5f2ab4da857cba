"""What each call is given: its words, its options, and what --help says about it."""

from dataclasses import dataclass

from composer.texts import N_


@dataclass(frozen=True, slots=True)
class Option:
    """One option.

    Attributes:
        name: ``--left``, or ``-o``.
        value: what its value is called; None = it takes none.
        needed: whether the call is impossible without it.
    """

    name: str
    value: str | None = None
    needed: bool = False


@dataclass(frozen=True, slots=True)
class Call:
    """One call.

    Attributes:
        name: its first word.
        words: what the words after it are called, in order.
        rest: what further words are called, one or more; "" = none may follow.
        options: its options.
        does: what it does (an untranslated catalogue entry).
        run: module and function that do it; "" = still to come.
    """

    name: str
    words: tuple[str, ...]
    options: tuple[Option, ...]
    does: str
    run: str = ""
    rest: str = ""

    @property
    def usage(self) -> str:
        """The call as it is written: ``place FILE PIECE --left L …``."""
        words = [self.name, *self.words]
        if self.rest:
            words.append(f"{self.rest} …")
        for option in self.options:
            text = option.name if option.value is None else f"{option.name} {option.value}"
            words.append(text if option.needed else f"[{text}]")
        return " ".join(words)

    def option(self, name: str) -> Option | None:
        """The option of that name, or None."""
        return next((option for option in self.options if option.name == name), None)


_OUT = Option("-o", "OUT")
_WALL = Option("--wall", "W")
_ARRANGEMENT = Option("--arrangement", "A")

CALL_LIST = (
    Call(
        "new",
        ("OUT",),
        (
            Option("--wall-width", "L", needed=True),
            Option("--wall-height", "L", needed=True),
            Option("--pieces", "TABLE"),
            Option("--units", "metric|imperial"),
            Option("--title", "T"),
            Option("--currency", "C"),
        ),
        N_("makes a project with one wall; its pieces lie on the floor"),
        "changing:new",
    ),
    Call(
        "set",
        ("FILE",),
        (_WALL, _OUT),
        N_("changes the project, its current arrangement, a wall or a piece"),
        "setting:set_values",
        rest="KEY=VALUE",
    ),
    Call(
        "add",
        ("FILE", "pieces|obstacles|prices|wall", "TABLE|NAME"),
        (_WALL, Option("--width", "L"), Option("--height", "L"), _OUT),
        N_("adds rows of a table, or a wall"),
        "changing:add",
    ),
    Call(
        "place",
        ("FILE", "PIECE"),
        (
            Option("--left", "L", needed=True),
            Option("--bottom", "L", needed=True),
            _WALL,
            Option("--turned"),
            _OUT,
        ),
        N_("hangs a piece with its lower left corner there"),
        "changing:place",
    ),
    Call(
        "arrange",
        ("FILE",),
        (
            Option("--pattern", "P", needed=True),
            Option("--gap", "L"),
            Option("--eye-line", "L"),
            Option("--seed", "N"),
            _WALL,
            _ARRANGEMENT,
            Option("--move-hung"),
            _OUT,
        ),
        N_("hangs every piece in a pattern: salon, block, row, column, grid, rows, cross, stair or mirror"),
        "arranging:arrange_pieces",
    ),
    Call(
        "true-up",
        ("FILE",),
        (Option("--gap", "L"), _OUT),
        N_("makes gaps exact and nearly aligned edges aligned with the least movement"),
        "arranging:true_up",
    ),
    Call(
        "report",
        ("FILE",),
        (_ARRANGEMENT, Option("--more")),
        N_("writes everything known and computed as JSON; --more: also what has no price, and the rehang plan"),
        "showing:report",
    ),
    Call("check", ("FILE",), (Option("--json"),), N_("lists what is wrong or left to do"), "showing:check"),
    Call(
        "paper",
        ("FILE", "KIND"),
        (
            Option("-o", "OUT.pdf", needed=True),
            Option("--sheet", "S"),
            Option("--economy", "E"),
            Option("--margins", "L|L,L,L,L"),
            Option("--overlap", "L"),
            Option("--scale", "SX,SY"),
            Option("--only", "1,3"),
            _WALL,
            _ARRANGEMENT,
            Option("--index", "I.json"),
            Option("--left-to-right"),
            Option("--large-print"),
        ),
        N_("draws sheets to scale as a PDF"),
        "papering:paper",
    ),
    Call(
        "export",
        ("FILE",),
        (Option("-o", "OUT.csv|png|svg|pdf", needed=True),),
        N_("writes the inventory table or the elevation to scale"),
        "papering:export",
    ),
    Call(
        "print-files",
        ("FILE",),
        (
            Option("-o", "DIR", needed=True),
            Option("--only", "1,3"),
            Option("--format", "jpeg|tiff|png"),
            Option("--multi-up"),
            _ARRANGEMENT,
        ),
        N_("writes a print-ready picture for each piece"),
        "printing_files:print_files",
    ),
    Call(
        "pack",
        ("FILE",),
        (Option("-o", "OUT.zip", needed=True),),
        N_("packs the project and its pictures into one archive that opens anywhere"),
        "packing:pack",
    ),
    Call(
        "unpack",
        ("ARCHIVE",),
        (Option("-o", "DIR", needed=True),),
        N_("takes a packed copy out into a new folder"),
        "packing:unpack",
    ),
)

BY_NAME = {call.name: call for call in CALL_LIST}
