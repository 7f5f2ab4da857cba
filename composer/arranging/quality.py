"""What may be said of an arrangement, in plain words with the figures behind them."""

from collections.abc import Sequence
from dataclasses import dataclass

from composer.arranging.measures import EXACT_MM, UNEASY, Measures, NearMiss, facing_pairs, measure, near_misses
from composer.arranging.task import box_around
from composer.arranging.true_up import Hung
from composer.geometry.rectangle import Rectangle
from composer.texts import say, say_many
from composer.units import LengthStyle, Mm, show_length

BALANCED = 0.05
ON_LINE_MM = 5.0


@dataclass(frozen=True, slots=True)
class Pair:
    """Two pieces whose edges nearly line up: one click mends it.

    Attributes:
        first, second: their numbers.
        miss: which edge, and by how much.
        sentence: in words.
    """

    first: int
    second: int
    miss: NearMiss
    sentence: str


@dataclass(frozen=True, slots=True)
class Line:
    """One thing said, and the figures under "why"."""

    sentence: str
    why: str


@dataclass(frozen=True, slots=True)
class Quality:
    """The group card's words.

    Attributes:
        headline: the result in one sentence.
        gaps, balance, height: the three parts.
        near_misses: by pair.
        figures: the measures themselves, to compare arrangements by.
    """

    headline: str
    gaps: Line
    balance: Line
    height: Line
    near_misses: tuple[Pair, ...]
    figures: Measures


def quality_of(
    hung: Sequence[Hung],
    gap: float,
    eye_line: float,
    *,
    furniture: Rectangle | None = None,
    style: LengthStyle | None = None,
) -> Quality | None:
    """What may be said of the pieces of one wall; None when nothing hangs there.

    Args:
        hung: the pieces.
        gap: wanted, mm.
        eye_line: of the wall, mm.
        furniture: what the group hangs over.
        style: how lengths are shown; None = millimetres.
    """
    if not hung:
        return None
    shown = LengthStyle("mm") if style is None else style
    boxes = [one.box for one in hung]
    figures = measure(boxes, gap)
    pairs = facing_pairs(boxes)
    misses = tuple(
        Pair(hung[one.first].number, hung[one.second].number, one, _differs(hung, one, shown))
        for one in near_misses(boxes, pairs, gap)
    )
    gaps = _gaps(figures, [pair.gap for pair in pairs], gap, shown)
    headline = gaps.sentence
    if misses:
        headline = say("{gaps} {miss}", gaps=gaps.sentence, miss=misses[0].sentence)
        if len(misses) > 1:
            headline = say(
                "{gaps} {more}",
                gaps=gaps.sentence,
                more=say_many("{count} edge nearly lines up.", "{count} edges nearly line up.", len(misses)),
            )
    return Quality(
        headline=headline,
        gaps=gaps,
        balance=_balance(figures),
        height=_height(boxes, eye_line, furniture, shown),
        near_misses=misses,
        figures=figures,
    )


def _mm(length: float, style: LengthStyle) -> str:
    return show_length(Mm(length), style)


def _gaps(figures: Measures, gaps: Sequence[float], gap: float, style: LengthStyle) -> Line:
    counted = [one for one in gaps if one <= 3 * gap + EXACT_MM]
    exact = [one for one in counted if abs(one - gap) <= EXACT_MM]
    others = [one for one in counted if abs(one - gap) > EXACT_MM]
    uneasy = [one for one in others if one < UNEASY * gap]
    if figures.count == 1:
        sentence = say("One piece hangs by itself.")
    elif not counted:
        sentence = say("No two pieces are neighbours yet.")
    elif not others:
        sentence = say("All gaps are {gap}.", gap=_mm(gap, style))
    elif not uneasy:
        sentence = say(
            "{exact} of {count} gaps are {gap}, the others clearly wider.",
            exact=len(exact),
            count=len(counted),
            gap=_mm(gap, style),
        )
    else:
        sentence = say_many(
            "{exact} of {all} gaps are {gap}; {count} looks like a mistake ({low} to {high}).",
            "{exact} of {all} gaps are {gap}; {count} look like mistakes ({low} to {high}).",
            len(uneasy),
            exact=len(exact),
            all=len(counted),
            gap=_mm(gap, style),
            low=_mm(min(uneasy), style),
            high=_mm(max(uneasy), style),
        )
    why = say(
        "Of the length along which pieces face each other, {exact} % is at {gap}, {uneven} % off it, "
        "{open} % white space; {rigid} % of all places follow from a gap or a shared line.",
        exact=round(100 * figures.exact_share),
        gap=_mm(gap, style),
        uneven=round(100 * figures.uneven_share),
        open=round(100 * figures.open_share),
        rigid=round(100 * figures.rigidity),
    )
    return Line(sentence, why)


def _differs(hung: Sequence[Hung], miss: NearMiss, style: LengthStyle) -> str:
    first, second = hung[miss.first].number, hung[miss.second].number
    off = _mm(abs(miss.off), style)
    if miss.axis == "y" and miss.edge == "high":
        return say("{first} and {second} differ by {off} at the top.", first=first, second=second, off=off)
    if miss.axis == "y":
        return say("{first} and {second} differ by {off} at the bottom.", first=first, second=second, off=off)
    if miss.edge == "low":
        return say("{first} and {second} differ by {off} on the left.", first=first, second=second, off=off)
    return say("{first} and {second} differ by {off} on the right.", first=first, second=second, off=off)


def _balance(figures: Measures) -> Line:
    aside, up = figures.balance
    why = say(
        "The middle of all frame area lies {aside} % of the width right of and {up} % of the height above the "
        "group's middle (minus: left, below).",
        aside=_signed(100 * aside),
        up=_signed(100 * up),
    )
    if abs(aside) <= BALANCED:
        return Line(say("Left and right balance."), why)
    if aside > 0:
        return Line(say("The right side is heavier."), why)
    return Line(say("The left side is heavier."), why)


def _signed(per_cent: float) -> str:
    return f"{round(per_cent)}".replace("-", "−")


def _height(boxes: Sequence[Rectangle], eye_line: float, furniture: Rectangle | None, style: LengthStyle) -> Line:
    box = box_around(boxes)
    middle = box.centre[1]
    off = middle - eye_line
    why = say(
        "From {bottom} to {top} above the floor, its middle at {middle}; the eye line is {eye_line}.",
        bottom=_mm(box.bottom, style),
        top=_mm(box.top, style),
        middle=_mm(middle, style),
        eye_line=_mm(eye_line, style),
    )
    if furniture is not None:
        above = _mm(box.bottom - furniture.top, style)
        share = round(100 * box.width / furniture.width)
        return Line(
            say("It hangs {above} above the furniture and is {share} % as wide.", above=above, share=share), why
        )
    if abs(off) <= ON_LINE_MM:
        return Line(say("Its middle hangs on the eye line."), why)
    if off > 0:
        return Line(say("Its middle hangs {off} above the eye line.", off=_mm(off, style)), why)
    return Line(say("Its middle hangs {off} below the eye line.", off=_mm(-off, style)), why)
