"""How much paper is still meant: a mistyped size must not fill the memory with sheets nobody prints."""

from composer.commandline.answers import Refused
from composer.paper.primitives import Document
from composer.texts import say

MOST_PAGES = 10_000
"""Twenty reams; a whole wall 10 m wide and 4 m high takes about 800 sheets of A4. Our own limit, no source."""


def expect_printable(document: Document) -> None:
    """Refuses what nobody prints, before any of it is drawn.

    Raises:
        Refused: exit code 2.
    """
    count = len(document.pages)
    if count > MOST_PAGES:
        raise Refused(
            say(
                "{count} sheets would be needed and {most} are the most; look for a mistyped size, or take larger paper.",
                count=count,
                most=MOST_PAGES,
            )
        )
