"""Checks of the project as a whole: names on paper, entries of its own catalogue."""

from composer.catalogue.catalogue import Catalogue
from composer.findings.of_piece import Unprintable
from composer.model import Finding, Wall


def check_names(walls: tuple[Wall, ...], title: str, unprintable: Unprintable | None) -> tuple[Finding, ...]:
    """Whether the title and the walls' names can be printed."""
    if unprintable is None:
        return ()
    named = [(None, title), *((wall.key, wall.name) for wall in walls)]
    return tuple(
        Finding(
            level="note",
            code="name-not-printable",
            wall=key,
            values=(("name", text), ("signs", "".join(dict.fromkeys(unprintable(text))))),
        )
        for key, text in named
        if unprintable(text)
    )


def check_catalogue(catalogue: Catalogue) -> tuple[Finding, ...]:
    """Entries of the person's own catalogue that could not be understood."""
    return tuple(
        Finding(level="note", code="catalogue-unread", values=(("entry", entry),))
        for entry in dict.fromkeys(catalogue.unread)
    )
