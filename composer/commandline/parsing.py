"""Reads the words of a call.

The rules, few on purpose: an option is written in full; its value is the next word or follows ``=``;
a value that begins with ``-`` follows ``=``, a negative number may stand by itself; after ``--`` every
word is taken as it is. Whatever is wrong is said in one line.
"""

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field

from composer.commandline.answers import Refused
from composer.commandline.calls import Call, Option
from composer.commandline.near import nearest
from composer.texts import say

_NEGATIVE = re.compile(r"-[\d.,½¼¾⅛⅜⅝⅞]")


@dataclass(frozen=True, slots=True)
class Given:
    """What a call was given.

    Attributes:
        call: which one.
        words: its words, in order.
        rest: the words after those.
        options: values by option; "" for one that takes none.
    """

    call: Call
    words: tuple[str, ...]
    rest: tuple[str, ...] = ()
    options: Mapping[str, str] = field(default_factory=dict)

    def option(self, name: str) -> str | None:
        """The option's value, or None."""
        return self.options.get(name)

    def has(self, name: str) -> bool:
        """Whether the option was given."""
        return name in self.options


def parse(call: Call, words: Sequence[str]) -> Given:
    """The words after the call's name, sorted out.

    Raises:
        Refused: with one sentence, exit code 2.
    """
    plain: list[str] = []
    options: dict[str, str] = {}
    coming = iter(words)
    for word in coming:
        if word == "--":
            plain.extend(coming)
        elif word == "-":
            raise Refused(say("{call}: “-” is not supported; a file's name is expected.", call=call.name))
        elif word.startswith("-") and not _NEGATIVE.match(word):
            option, value = _option(call, word)
            if option.name in options:
                raise Refused(say("{call}: {option} is given twice.", call=call.name, option=option.name))
            options[option.name] = _value(call, option, value, coming)
        else:
            plain.append(word)
    return _complete(call, plain, options)


def _option(call: Call, word: str) -> tuple[Option, str | None]:
    """The option a word names, and the value behind its ``=``."""
    name, equals, value = word.partition("=")
    option = call.option(name)
    if option is None and not word.startswith("--") and len(word) > 2:
        option, equals, value = call.option(word[:2]), "=", word[2:]
    if option is not None:
        return option, value if equals else None
    known = [option.name for option in call.options]
    near = nearest(name, known)
    if near:
        hint = say("Did you mean {names}?", names=" / ".join(near))
    elif known:
        hint = say("It takes {options}.", options=", ".join(known))
    else:
        hint = say("It takes no options.")
    raise Refused(say("{call}: there is no option “{option}”. {hint}", call=call.name, option=name[:40], hint=hint))


def _value(call: Call, option: Option, value: str | None, coming: Iterator[str]) -> str:
    if option.value is None:
        if value is not None:
            raise Refused(
                say(
                    "{call}: {option} takes no value, but “{found}” follows.",
                    call=call.name,
                    option=option.name,
                    found=value[:40],
                )
            )
        return ""
    if value is None:
        value = next(coming, None)
        if value is None or (value.startswith("-") and not _NEGATIVE.match(value)):
            raise Refused(
                say(
                    "{call}: {option} needs a value, {value}; one that begins with “-” is written {option}=VALUE.",
                    call=call.name,
                    option=option.name,
                    value=option.value,
                )
                if value is not None
                else say(
                    "{call}: {option} needs a value, {value}.", call=call.name, option=option.name, value=option.value
                )
            )
    return value


def _complete(call: Call, plain: list[str], options: dict[str, str]) -> Given:
    count = len(call.words)
    if len(plain) < count:
        raise Refused(
            say("{call}: {word} is missing: {usage}", call=call.name, word=call.words[len(plain)], usage=call.usage)
        )
    rest = tuple(plain[count:])
    if call.rest and not rest:
        raise Refused(say("{call}: {word} is missing: {usage}", call=call.name, word=call.rest, usage=call.usage))
    if rest and not call.rest:
        raise Refused(
            say("{call}: “{found}” is one word too many: {usage}", call=call.name, found=rest[0][:40], usage=call.usage)
        )
    for option in call.options:
        if option.needed and option.name not in options:
            raise Refused(
                say(
                    "{call}: {option} {value} is missing.", call=call.name, option=option.name, value=option.value or ""
                )
            )
    return Given(call, tuple(plain[:count]), rest, options)
