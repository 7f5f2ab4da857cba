"""How the print to order comes about, and how sharp it will be: each figure with the sum it comes from."""

from __future__ import annotations

from composer.desktop.units_shown import number
from composer.hanging.working import WrittenLine
from composer.model import Project
from composer.prints.plan import PiecePlan, PrintPlan
from composer.prints.sharpness import SAFETY, acuity_distance_mm, acuity_ppi, largest_stock
from composer.prints.stock import stock_sizes
from composer.texts import say
from composer.units import LengthStyle

MM_PER_INCH, MM_PER_FOOT = 25.4, 304.8


def distance_words(mm: float, style: LengthStyle) -> str:
    """How far one stands, to a tenth of a metre or foot."""
    if style.unit == "in":
        return say("{feet} ft", feet=f"{mm / MM_PER_FOOT:.1f}")
    return say("{metres} m", metres=f"{mm / 1000:.1f}")


def print_working(planned: PiecePlan, style: LengthStyle) -> list[WrittenLine]:
    """The size needed, the pixels an inch, and from how far that is sharp."""
    printed = planned.print
    if printed is None:
        return []
    lines = [_needed(planned, printed, style)]
    if printed.ppi is None or printed.crop is None:
        return lines
    across = printed.crop.width / printed.needed_mm[0] <= printed.crop.height / printed.needed_mm[1]
    pixels = printed.crop.width if across else printed.crop.height
    side = printed.needed_mm[0] if across else printed.needed_mm[1]
    expression = (
        say("{pixels} ÷ {inches}", pixels=f"{pixels:.0f}", inches=number(side, style))
        if style.unit == "in"
        else say("{pixels} ÷ ({side} ÷ 25.4)", pixels=f"{pixels:.0f}", side=number(side, style))
    )
    lines.append(
        WrittenLine(
            say("pixels kept ÷ inches they fill"),
            expression,
            say("{ppi} ppi", ppi=f"{printed.ppi:.0f}"),
            (),
            say("Density noted in the file does not count."),
        )
    )
    sharp = acuity_distance_mm(printed.ppi, SAFETY)
    at_one = acuity_ppi(1000.0)
    lines.append(
        WrittenLine(
            say("sharp from"),
            say("1.5 × {at_one} ÷ {ppi}", at_one=f"{at_one:.1f}", ppi=f"{printed.ppi:.0f}"),
            distance_words(sharp, style),
            (),
            say("One minute of arc at 1 m (ISO 8596), with half in hand; in metres."),
        )
    )
    return lines


def _needed(planned: PiecePlan, printed: PrintPlan, style: LengthStyle) -> WrittenLine:
    width, height = (number(side, style) for side in printed.needed_mm)
    size = say("{width} × {height}", width=width, height=height)
    if planned.mat is not None:
        mat = planned.mat
        return WrittenLine(
            say("window + overlap on both sides"),
            say(
                "{window} + 2 × {overlap}",
                window=number(mat.window_mm[0], style),
                overlap=number(mat.overlap_mm, style),
            ),
            size,
            (),
            say("The print must reach under the mat all round."),
        )
    frame = planned.piece.frame
    if frame.face is not None and frame.lip is not None and not planned.turned and frame.glass_width is None:
        return WrittenLine(
            say("outside − mouldings + lips − play"),
            say(
                "{width} − 2 × {face} + 2 × {lip} − {play}",
                width=number(float(frame.width.mm), style),
                face=number(float(frame.face.mm), style),
                lip=number(float(frame.lip.mm), style),
                play=number(0.0 if frame.allowance is None else float(frame.allowance.mm), style),
            ),
            size,
            (),
            say("As large as the glass, which it lies behind."),
        )
    return WrittenLine(say("as the glass"), say("width × height"), size, (), say("The print lies behind the glass."))


def sharpness(project: Project, printed: PrintPlan, style: LengthStyle, viewed_mm: float | None) -> tuple[str, bool]:
    """How sharp the print will be, in a sentence or two, and whether that is too little.

    Args:
        viewed_mm: from where the wall is looked at; None = nobody said.
    """
    if printed.ppi is None:
        return say("How sharp it will be is known once the picture file has been read."), False
    needed = f"{printed.ppi_needed:.0f}"
    sharp = distance_words(acuity_distance_mm(printed.ppi, SAFETY), style)
    if printed.soft:
        return say("Soft: {ppi} ppi, {needed} would do.", ppi=f"{printed.ppi:.0f}", needed=needed), True
    if viewed_mm is None:
        return say("Sharp from {distance}; {needed} ppi would do.", distance=sharp, needed=needed), False
    viewed = distance_words(viewed_mm, style)
    return say(
        "Sharp from {distance}. {needed} would do at {viewed}.", distance=sharp, needed=needed, viewed=viewed
    ), False


def carries(project: Project, printed: PrintPlan) -> str:
    """The largest stock size the whole picture carries, and how far the print file enlarges it; empty = not known."""
    if printed.pixels is None or printed.ppi is None:
        return ""
    sizes = stock_sizes(project.units, project.catalogue)
    largest = largest_stock(printed.pixels, printed.ppi_needed, sizes)
    words = (
        say("It carries no stock size at that distance.")
        if largest is None
        else say("This picture carries up to {stock}.", stock=largest.shown)
    )
    if printed.fit is None:
        return words
    from composer.pictures.print_sheet import file_ppi

    times = printed.enlarged(file_ppi(printed.fit.width_mm, printed.fit.height_mm))
    if times is None or times <= 1:
        return words
    return say("{words} The print file enlarges it {times} times.", words=words, times=f"{times:.1f}")
