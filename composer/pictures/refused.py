"""What can be wrong with a picture's file; every message is one finished sentence naming it."""

from typing import Literal

from composer.texts import one_line

Why = Literal[
    "missing", "unreadable", "empty", "other-format", "not-a-picture", "truncated", "damaged", "too-large", "too-deep"
]


class BadPicture(ValueError):
    """A file that cannot be used as a picture.

    Attributes:
        why: a short word for it.
    """

    def __init__(self, why: Why, sentence: str) -> None:
        super().__init__(one_line(sentence))
        self.why = why
