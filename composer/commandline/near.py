"""What somebody may have meant who mistyped a name."""

from collections.abc import Iterable

from composer.texts import say

_MOST = 12


def suggestion(found: str, known: Iterable[str]) -> str:
    """A sentence with the nearest known names, else with all of them, at most twelve."""
    names = list(dict.fromkeys(known))
    near = nearest(found, names)
    if near:
        return say("Did you mean {names}?", names=" / ".join(near))
    shown = ", ".join(names[:_MOST])
    if len(names) > _MOST:
        return say("There are: {names}, and {more} more.", names=shown, more=len(names) - _MOST)
    return say("There are: {names}.", names=shown) if names else say("There are none.")


def nearest(found: str, known: Iterable[str]) -> list[str]:
    """Up to three known names that look like ``found``, the likeliest first."""
    from difflib import get_close_matches  # 10 ms that only a mistake costs

    by_folded: dict[str, str] = {}
    for name in known:
        by_folded.setdefault(name.casefold(), name)
    return [by_folded[name] for name in get_close_matches(found.casefold(), by_folded, n=3, cutoff=0.6)]
