"""The grammar of typed quantities: text in, canonical text and exact number out.

A general expression parser takes ``24 3/8 in`` for nine inches and ``12,5 mm`` for 125 mm, so this
is our own. ``.`` is decimal; ``,`` is decimal, too, unless exactly three digits follow, which may
mean thousands. Groups of three may be set apart by spaces of any kind, by nothing else.
"""

import re
from decimal import Decimal
from fractions import Fraction

from composer.texts import one_line, say
from composer.units.factors import KG_PER, KG_PER_OUNCE, KG_PER_POUND, MM_PER, MM_PER_FOOT, MM_PER_INCH

LONGEST_MM = 100_000
HEAVIEST_KG = 1000
LONGEST_TEXT = 40
"""Characters of a quantity; nobody needs more, and a longer text is a mistake or an attack."""


class BadQuantity(ValueError):
    """A length, weight or amount that cannot be read; the message is one finished sentence, whatever was typed."""

    def __init__(self, sentence: str) -> None:
        super().__init__(one_line(sentence))


_SIGNS = str.maketrans(
    {
        **dict.fromkeys("′’‘´`", "'"),
        **dict.fromkeys("″”“", '"'),
        **dict.fromkeys("−–‐‑", "-"),
        **dict.fromkeys("\u00a0\u202f\u2009\u2007\u2008\t", " "),
        "⁄": "/",
    }
)
_VULGAR = {
    ord(sign): f" {top}/{bottom}" for sign, top, bottom in zip("¼½¾⅛⅜⅝⅞⅓⅔", "113135712", "424888833", strict=True)
}

_NUMBER = r"(?:\d{1,3}(?: \d{3})+|\d{1,9})(?:[.,]\d{1,9})?|[.,]\d{1,9}"
_MIXED = r"(?:\d{1,9}[ -])?\d{1,4}/\d{1,4}"
_INCH = r"(?:inches|inch|in|\"|'')"
_FOOT = r"(?:feet|foot|ft|')"

PLAIN_LENGTH = re.compile(r"(-?)(0|[1-9][0-9]{0,8})(?:\.([0-9]{1,9}))? (mm|cm|m|in|ft)")
"""What most lengths of a file look like; read without any normalising."""
_ONE_LENGTH = re.compile(
    rf"(?:(?P<mixed>{_MIXED})|(?P<number>{_NUMBER})) ?(?P<unit>mm|cm|m|{_INCH}|{_FOOT})?", re.ASCII
)
_FEET_AND_INCHES = re.compile(
    rf"(?P<feet>\d{{1,9}}) ?{_FOOT} ?-? ?(?:(?P<mixed>{_MIXED})|(?P<inches>{_NUMBER})) ?{_INCH}?", re.ASCII
)
_ONE_MASS = re.compile(rf"(?:(?P<mixed>{_MIXED})|(?P<number>{_NUMBER})) ?(?P<unit>kg|g|lbs|lb|oz)?", re.ASCII)
_POUNDS_AND_OUNCES = re.compile(
    rf"(?P<pounds>\d{{1,9}}) ?lbs? ?(?:(?P<mixed>{_MIXED})|(?P<ounces>{_NUMBER})) ?oz", re.ASCII
)
_MONEY = re.compile(r"(?:\d{1,3}(?: \d{3})+|\d{1,9})(?:[.,]\d{1,2})?", re.ASCII)
_OTHER_THOUSANDS = re.compile(r"\d{1,3}(?:['_]\d{3}\b|[.,]\d{3}[.,]\d).*", re.ASCII)

_UNIT_OF = {
    "mm": "mm", "cm": "cm", "m": "m", "in": "in", "inch": "in", "inches": "in", '"': "in", "''": "in",
    "ft": "ft", "foot": "ft", "feet": "ft", "'": "ft",
}  # fmt: skip
RATIO = {unit: (factor.numerator, factor.denominator) for unit, factor in MM_PER.items()}


Parsed = tuple[str, Fraction, str]
"""Canonical text, exact millimetres or kilograms, unit."""


def parse_length(typed: str, bare: str | None, *, fractions_need_unit: bool = False) -> Parsed:
    """A length of either sign; ``bare`` is the unit of a bare number, None = a unit is needed.

    Raises:
        BadQuantity: when it is not one, or beyond 100 m.
    """
    sign, text = _prepared(typed)
    if one := _ONE_LENGTH.fullmatch(text):
        unit = _UNIT_OF[one["unit"]] if one["unit"] else bare
        if unit is None:
            raise BadQuantity(say("The length “{typed}” needs a unit: mm, cm, m, in or ft.", typed=shorten(typed)))
        if fractions_need_unit and one["mixed"] and not one["unit"]:
            raise BadQuantity(say("The fraction “{typed}” needs a unit: 1/2 in or 1/2 cm.", typed=shorten(typed)))
        amount, words = _amount(one["mixed"], one["number"], typed)
        exact, canonical = amount * MM_PER[unit], f"{words} {unit}"
    elif both := _FEET_AND_INCHES.fullmatch(text):
        inches, words = _amount(both["mixed"], both["inches"], typed)
        if inches >= 12:
            raise BadQuantity(say("In “{typed}” the inches after feet must be less than 12.", typed=shorten(typed)))
        feet, unit = int(both["feet"]), "ft"
        exact, canonical = feet * MM_PER_FOOT + inches * MM_PER_INCH, f"{feet} ft {words} in"
    else:
        _refuse_thousands(text, typed)
        raise BadQuantity(
            say("“{typed}” is not a length. Try 61.5 cm, 615 mm, 24 1/4 in or 2 ft 4 in.", typed=shorten(typed))
        )
    if sign and exact:
        exact, canonical = -exact, f"-{canonical}"
    check_reach(exact, typed)
    return canonical, exact, unit


def check_reach(exact_mm: Fraction, typed: str) -> None:
    """Refuse what no room holds."""
    if abs(exact_mm) > LONGEST_MM:
        raise BadQuantity(say("“{typed}” is more than 100 m.", typed=shorten(typed)))


def parse_mass(typed: str) -> Parsed:
    """A mass above nothing, at most a tonne, with its unit.

    Raises:
        BadQuantity: with one sentence saying what was found and what is expected.
    """
    sign, text = _prepared(typed)
    if both := _POUNDS_AND_OUNCES.fullmatch(text):
        ounces, words = _amount(both["mixed"], both["ounces"], typed)
        if ounces >= 16:
            raise BadQuantity(say("In “{typed}” the ounces after pounds must be less than 16.", typed=shorten(typed)))
        pounds, unit = int(both["pounds"]), "lb"
        exact, canonical = pounds * KG_PER_POUND + ounces * KG_PER_OUNCE, f"{pounds} lb {words} oz"
    else:
        one = _ONE_MASS.fullmatch(text)
        if one is None:
            _refuse_thousands(text, typed)
            raise BadQuantity(say("“{typed}” is not a weight. Try 1.2 kg, 800 g or 1 lb 4 oz.", typed=shorten(typed)))
        if one["unit"] is None:
            raise BadQuantity(say("The weight “{typed}” needs a unit: g, kg, oz or lb.", typed=shorten(typed)))
        unit = "lb" if one["unit"] == "lbs" else one["unit"]
        amount, words = _amount(one["mixed"], one["number"], typed)
        exact, canonical = amount * KG_PER[unit], f"{words} {unit}"
    if sign or exact <= 0:
        raise BadQuantity(say("“{typed}” is not a weight above 0.", typed=shorten(typed)))
    if exact > HEAVIEST_KG:
        raise BadQuantity(say("“{typed}” is more than 1 000 kg.", typed=shorten(typed)))
    return canonical, exact, unit


def read_money(typed: str) -> Decimal:
    """Reads an amount: digits, one decimal mark, at most two decimals, no symbol.

    Raises:
        BadQuantity: with one sentence saying what was found and what is expected.
    """
    text = typed.translate(_SIGNS).strip(" ") if len(typed) <= LONGEST_TEXT else ""
    if not _MONEY.fullmatch(text):
        raise BadQuantity(
            say(
                "“{typed}” is not an amount. Write it like 11.40, two decimals at most, no symbol.",
                typed=shorten(typed),
            )
        )
    return Decimal(text.replace(" ", "").replace(",", "."))


def _prepared(typed: str) -> tuple[str, str]:
    """A minus or nothing, and the text to match: ASCII, lower case, single spaces."""
    if len(typed) > LONGEST_TEXT:
        raise BadQuantity(say("“{typed}” is too long to be a length or a weight.", typed=shorten(typed)))
    text = typed.translate(_VULGAR).translate(_SIGNS)
    if not text.isascii():
        return "", "?"
    text = re.sub(r"(\d)- (\d+/)", r"\1 \2", re.sub(" {2,}", " ", text)).strip(" ").lower()
    return ("-", text[1:].lstrip(" ")) if text.startswith("-") else ("", text)


def _amount(mixed: str | None, number: str | None, typed: str) -> tuple[Fraction, str]:
    """The number and its canonical text."""
    if mixed is not None:
        whole, _, fraction = mixed.replace("-", " ").rpartition(" ")
        top, bottom = (int(part) for part in fraction.split("/"))
        if bottom == 0:
            raise BadQuantity(say("“{typed}” divides by nothing.", typed=shorten(typed)))
        if whole and top >= bottom:
            raise BadQuantity(say("In “{typed}” the fraction must be less than one.", typed=shorten(typed)))
        return int(whole or 0) + Fraction(top, bottom), f"{int(whole)} {top}/{bottom}" if whole else f"{top}/{bottom}"
    assert number is not None
    whole, comma, decimals = number.partition(",")
    if comma and len(decimals) == 3 and " " not in whole:
        raise BadQuantity(
            say(
                "“{typed}” may mean thousands or decimals. Write {whole} {decimals} or {whole}.{decimals}.",
                typed=shorten(typed),
                whole=whole or "0",
                decimals=decimals,
            )
        )
    plain = number.replace(" ", "").replace(",", ".")
    whole, point, decimals = plain.partition(".")
    value = Fraction(int(whole + decimals), 10 ** len(decimals))
    return value, f"{int(whole or 0)}{point}{decimals}"


def _refuse_thousands(text: str, typed: str) -> None:
    if _OTHER_THOUSANDS.fullmatch(text):
        raise BadQuantity(say("In “{typed}” thousands must be set apart by spaces: 1 250.5.", typed=shorten(typed)))


def shorten(typed: str) -> str:
    """The typed text, short and printable enough to stand in a sentence."""
    start = typed[: LONGEST_TEXT + 1]
    text = "".join(sign if sign.isprintable() else " " for sign in start).strip()
    return text if len(text) <= LONGEST_TEXT else f"{text[: LONGEST_TEXT - 1]}…"


def written(value: Fraction, unit: str, *, places: int, near: Fraction) -> str:
    """A number and its unit in the grammar: a tape's fraction, else a decimal, else a fraction."""
    if unit in ("in", "ft"):
        per = 64 if unit == "in" else 64 * 12
        marks = round(value * per)
        if abs(Fraction(marks, per) - value) <= near:
            return _tape(Fraction(marks, 64), feet=unit == "ft")
    rounded = round(value, places)
    if rounded != value and near == 0 and value.denominator <= 9999:
        sign, size = "-" if value < 0 else "", abs(value)
        whole = size.numerator // size.denominator
        words = f"{whole} " if whole else ""
        return f"{sign}{words}{size.numerator - whole * size.denominator}/{size.denominator} {unit}"
    return f"{_decimal(rounded, places)} {unit}"


def _decimal(value: Fraction, places: int) -> str:
    """A decimal without trailing zeros; ``value`` has at most ``places`` decimals."""
    whole, rest = divmod(abs(value.numerator) * 10**places // value.denominator, 10**places)
    text = f"{whole}.{rest:0{places}d}".rstrip("0").rstrip(".") if places else str(whole)
    return f"-{text}" if value < 0 else text


def _tape(inches: Fraction, *, feet: bool) -> str:
    """Inches in the grammar, with feet if wanted: ``57 1/2 in``, ``4 ft 9 1/2 in``, ``5 ft``."""
    size, parts = abs(inches), []
    if feet:
        parts.append(f"{size // 12} ft")
        size %= 12
    if size or not parts:
        parts.append(f"{mixed(size)} in")
    return ("-" if inches < 0 else "") + " ".join(parts)


def mixed(size: Fraction) -> str:
    """A number as whole and fraction: ``3 1/2``."""
    whole, part = divmod(size, 1)
    if not part:
        return str(whole)
    return f"{whole} {part}" if whole else str(part)
