"""The mat in one sentence, and the sums it comes from."""

from __future__ import annotations

from composer.desktop.cards.session import shown_in
from composer.desktop.units_shown import number
from composer.hanging.working import WrittenLine
from composer.model import EvenBorders, Key, Project, RatioBorders, WeightedBorders
from composer.prints.mats import MatPlan
from composer.prints.plan import PiecePlan, plan
from composer.texts import say
from composer.units import LengthStyle


def mat_sentence(project: Project, key: Key) -> str:
    """The mat in one sentence."""
    piece, style = project.piece_by_key[key], shown_in(project)
    if piece.mat is None:
        return say("No mat.")
    planned = plan(project, piece)
    if planned.mat is None:
        if planned.mat_refused is not None and planned.mat_refused.why == "no-board":
            return say("This window leaves no board around it.")
        return say("With a mat; its window is not fixed yet.")
    width, height = (number(side, style) for side in planned.mat.window_mm)
    four = planned.mat.borders
    words = say("Window {width} × {height}", width=width, height=height)
    if len({round(side, 3) for side in (four.top, four.bottom, four.left, four.right)}) == 1:
        return say("{words}, borders {border}.", words=words, border=number(four.top, style))
    return say(
        "{words}, borders {sides} beside, {top} above, {bottom} below.",
        words=words,
        sides=number(four.left, style),
        top=number(four.top, style),
        bottom=number(four.bottom, style),
    )


def mat_working(planned: PiecePlan, style: LengthStyle) -> list[WrittenLine]:
    """How the mat comes about: board, borders, print."""
    mat = planned.mat
    if mat is None:
        return []
    return [_board(planned, mat, style), _borders(planned, mat, style), _print(mat, style)]


def _size(pair: tuple[float, float], style: LengthStyle) -> str:
    return say("{width} × {height}", width=number(pair[0], style), height=number(pair[1], style))


def _board(planned: PiecePlan, mat: MatPlan, style: LengthStyle) -> WrittenLine:
    frame = planned.piece.frame
    result = _size(mat.outer_mm, style)
    if frame.face is None or frame.lip is None or planned.turned or frame.glass_width is not None:
        return WrittenLine(say("outside, as the glass"), say("board"), result, (), say("Cut first."))
    expression = say(
        "{width} − 2 × {face} + 2 × {lip} − {play}",
        width=number(float(frame.width.mm), style),
        face=number(float(frame.face.mm), style),
        lip=number(float(frame.lip.mm), style),
        play=number(0.0 if frame.allowance is None else float(frame.allowance.mm), style),
    )
    return WrittenLine(say("outside − mouldings + lips − play"), expression, result, (), say("The board, cut first."))


def _borders(planned: PiecePlan, mat: MatPlan, style: LengthStyle) -> WrittenLine:
    four = mat.borders
    outer, window = number(mat.outer_mm[1], style), number(mat.window_mm[1], style)
    top, bottom, left = (number(side, style) for side in (four.top, four.bottom, four.left))
    typed = None if planned.piece.mat is None else planned.piece.mat.borders
    below = say("Below {bottom}, beside {left}.", bottom=bottom, left=left)
    if isinstance(typed, WeightedBorders):
        extra = number(float(typed.extra.mm), style)
        expression = say("({outer} − {window} − {extra}) ÷ 2", outer=outer, window=window, extra=extra)
        below = say("Below {top} + {extra} = {bottom}, beside {left}.", top=top, extra=extra, bottom=bottom, left=left)
    elif isinstance(typed, RatioBorders):
        ratio = f"{typed.bottom_to_top:.3g}"
        expression = say("({outer} − {window}) ÷ (1 + {ratio})", outer=outer, window=window, ratio=ratio)
    elif isinstance(typed, EvenBorders):
        expression = say("({outer} − {window}) ÷ 2", outer=outer, window=window)
    else:
        expression = say("as typed")
    return WrittenLine(say("border above"), expression, top, (), below)


def _print(mat: MatPlan, style: LengthStyle) -> WrittenLine:
    overlap = number(mat.overlap_mm, style)
    return WrittenLine(
        say("print"),
        say("{window} + 2 × {overlap}", window=number(mat.window_mm[0], style), overlap=overlap),
        _size(mat.print_mm, style),
        (),
        say("The mat covers the overlap on each side; a minus lets the print float free."),
    )
