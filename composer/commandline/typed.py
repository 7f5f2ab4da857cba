"""Reads the values of options, each with the option's name in front of what is wrong with it."""

from collections.abc import Callable, Mapping
from typing import TypeVar

from composer.commandline.answers import Refused
from composer.commandline.near import suggestion
from composer.model import Units
from composer.model.project import USUAL_UNIT
from composer.model.scalars import BadRecord
from composer.texts import say
from composer.units import BadQuantity, Length, read_length

_Read = TypeVar("_Read")


def of(name: str, read: Callable[[], _Read]) -> _Read:
    """What ``read`` gives; its refusal is told with the name of the option or key in front.

    Raises:
        Refused: exit code 2.
    """
    from composer.editing.edits import EditRefused, PieceLocked

    try:
        return read()
    except PieceLocked:
        raise
    except (BadQuantity, BadRecord, EditRefused, Refused) as error:
        raise Refused(say("{name}: {what}", name=name, what=error)) from None


def length(name: str, text: str, units: Units, *, zero: bool = False, minus: bool = False) -> Length:
    """A length; a bare number is inches or centimetres, by the project's units.

    Raises:
        Refused: naming the option.
    """
    return of(name, lambda: bare_length(text, units, zero=zero, minus=minus))


def bare_length(text: str, units: Units, *, zero: bool = False, minus: bool = False) -> Length:
    """As :func:`length`, where somebody else says what it is for.

    Raises:
        BadQuantity: with one sentence.
    """
    return read_length(text, bare=USUAL_UNIT[units], fractions_need_unit=units == "metric", zero=zero, minus=minus)


def one_of(name: str, text: str, choices: Mapping[str, _Read]) -> _Read:
    """The choice of that name, whatever its capitals.

    Raises:
        Refused: naming the option, with the nearest choices or all of them.
    """
    return of(name, lambda: choice(text, choices))


def choice(text: str, choices: Mapping[str, _Read]) -> _Read:
    """As :func:`one_of`, where somebody else says what it is for.

    Raises:
        Refused: with the nearest choices or all of them.
    """
    for known, value in choices.items():
        if known.casefold() == text.strip().casefold():
            return value
    raise Refused(say("“{found}” is not known. {hint}", found=text[:40], hint=suggestion(text, choices)))


YES_NO = {"yes": True, "no": False}
UNITS: dict[str, Units] = {"metric": "metric", "imperial": "imperial"}
