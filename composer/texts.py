"""Every sentence a person sees, from one gettext catalogue with named parameters.

A text is written in English where it is used, ``say("Piece {number} has no name.", number=3)``,
and looked up in ``resources/locale``. A missing or broken translation falls back to the English
words: a text must never be the reason why a program stops.
"""

import gettext
import io
import os
import re
from functools import lru_cache

from composer.resources import resource

DOMAIN = "wallwright"
PSEUDO_LANGUAGE = "xx-long"
"""A made-up language, 40 % longer than English, that shows whether layouts have room."""


def say(message: str, /, **values: object) -> str:
    """The text in the person's language with its named parameters filled in."""
    return _fill(_translation().gettext(message), message, values)


def say_many(one: str, many: str, count: int, /, **values: object) -> str:
    """The text in the grammatical number of ``count``, which may appear in it as ``{count}``."""
    english = one if count == 1 else many
    return _fill(_translation().ngettext(one, many, count), english, {"count": count, **values})


def N_(message: str, /) -> str:
    """Marks a text for the catalogue that is looked up later, with :func:`say`."""
    return message


def one_line(sentence: str) -> str:
    """The sentence without what a file or a word may have smuggled into it.

    Control characters, line ends and marks that turn the direction of the whole line become a dot.
    """
    return _SMUGGLED.sub("·", sentence)


_SMUGGLED = re.compile("[\x00-\x1f\x7f-\x9f\u2028\u2029\u202a-\u202e\u2066-\u2069\ud800-\udfff]")


def use_language(language: str | None) -> None:
    """Chooses the language for this process; None = as the environment says."""
    global _chosen
    _chosen = language
    _translation.cache_clear()


_chosen: str | None = None


def _fill(text: str, english: str, values: dict[str, object]) -> str:
    if not values:
        return text
    try:
        return text.format_map(values)
    except (KeyError, IndexError, ValueError, AttributeError, TypeError):  # a slip of the translator
        return english.format_map(values)


@lru_cache(maxsize=1)
def _translation() -> gettext.NullTranslations:
    for language in _languages():
        if language == PSEUDO_LANGUAGE:
            return _PseudoTranslations()
        found = resource(f"locale/{language}/LC_MESSAGES/{DOMAIN}.mo")
        if found.is_file():
            try:
                return gettext.GNUTranslations(io.BytesIO(found.read_bytes()))
            except (OSError, ValueError, EOFError):
                break
    return gettext.NullTranslations()


def _languages() -> list[str]:
    if _chosen:
        return [_chosen]
    named = os.environ.get("WALLWRIGHT_LANGUAGE")
    if named:
        return [named]
    for variable in ("LANGUAGE", "LC_ALL", "LC_MESSAGES", "LANG"):
        if value := os.environ.get(variable):
            wanted = []
            for code in value.split(":"):
                plain = code.split(".")[0].split("@")[0]
                if plain in {"C", "POSIX"} or plain.split("_")[0] == "en":
                    break  # the texts are English as they stand: nothing after it is wanted more
                wanted += [plain, plain.split("_")[0]]
            return [code for code in wanted if code]
    return []


class _PseudoTranslations(gettext.NullTranslations):
    def gettext(self, message: str) -> str:
        return _lengthen(message)

    def ngettext(self, msgid1: str, msgid2: str, n: int) -> str:
        return _lengthen(msgid1 if n == 1 else msgid2)


_PLACEHOLDER = re.compile(r"(\{\{|\}\}|\{[^{}]*\})")
_ACCENTED = str.maketrans("aeiouncAEIOUNC", "åéîöüñçÅÉÎÖÜÑÇ")


def _lengthen(message: str) -> str:
    """The message 40 % longer, with accents, in brackets, its placeholders untouched."""
    parts = _PLACEHOLDER.split(message)
    changed = [part if _PLACEHOLDER.fullmatch(part) else part.translate(_ACCENTED) for part in parts]
    letters = sum(len(part) for part in parts if not _PLACEHOLDER.fullmatch(part))
    return "⟦" + "".join(changed) + _padding(max(round(letters * 0.4) - 2, 0)) + "⟧"


def _padding(count: int) -> str:
    filler = " lorem ipsum dolor sit amet"
    return (filler * (count // len(filler) + 1))[:count]
