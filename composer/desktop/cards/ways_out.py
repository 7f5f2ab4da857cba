"""Where no stock size covers a print: a mat that lets one do, what the largest lacks, or having it made."""

from __future__ import annotations

import math
from dataclasses import dataclass

from PySide6.QtWidgets import QVBoxLayout, QWidget

from composer.desktop import field_look as look
from composer.desktop.cards.mat_drawing import lip_mm
from composer.desktop.cards.session import Session, shown_in, try_apply
from composer.desktop.field_row import LinkButton, Words
from composer.desktop.units_shown import number
from composer.editing.print_edits import change_mat
from composer.model import EvenBorders, Key, Mat, Units
from composer.prints.choosing import Fit
from composer.prints.mats import LEAST_BORDER_MM
from composer.prints.plan import PiecePlan
from composer.texts import say
from composer.units import Length, LengthStyle

SIXTEENTH_MM = 25.4 / 16


@dataclass(frozen=True, slots=True)
class MatWay:
    """A mat with even borders through which a stock size covers."""

    fit: Fit
    border: Length


def mat_way(planned: PiecePlan, units: Units) -> MatWay | None:
    """The narrowest even border, to whole millimetres or sixteenths, with which the largest size does; None = none."""
    printed, glass = planned.print, planned.glass_mm
    if printed is None or glass is None:
        return None
    fit = next((one.fit for one in printed.advice if one.kind == "mat-down" and one.fit is not None), None)
    if fit is None:
        return None
    overlap = (planned.piece.mat or Mat()).overlap_mm(units)
    least = max(
        (glass[0] + 2 * overlap - fit.width_mm) / 2,
        (glass[1] + 2 * overlap - fit.height_mm) / 2,
        lip_mm(planned) + LEAST_BORDER_MM,
    )
    if 2 * least >= min(glass) - 2 * LEAST_BORDER_MM:
        return None
    step = SIXTEENTH_MM if units == "imperial" else 1.0
    border = math.ceil(least / step - 1e-9) * step
    return MatWay(fit, Length.of_mm(border, "in" if units == "imperial" else "mm"))


class WaysOut(QWidget):
    """Part of the picture section; hidden where a size covers."""

    def __init__(self, session: Session, key: Key, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session, self._key = session, key
        self._way: MatWay | None = None
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(look.px(2))
        self.words = Words("", 12, "warn")
        column.addWidget(self.words)
        self.take = LinkButton(say("Take that mat"))
        self.take.clicked.connect(self._on_take)
        column.addWidget(self.take)

    def show_plan(self, planned: PiecePlan) -> None:
        """Shows the ways out of another print."""
        printed, project = planned.print, self._session.project
        stuck = printed is not None and printed.choice.best is None
        self.setVisible(stuck)
        if not stuck:
            return
        self._way = mat_way(planned, project.units)
        self.words.setText("\n".join(ways(planned, self._way, shown_in(project))))
        self.take.setVisible(self._way is not None)

    def _on_take(self, _: bool = False) -> None:
        if self._way is not None:
            borders = EvenBorders(border=self._way.border)
            edit = change_mat(self._session.project, self._key, borders=borders, window_width=None, window_height=None)
            self.words.setText(try_apply(self._session, edit))


def ways(planned: PiecePlan, way: MatWay | None, style: LengthStyle) -> list[str]:
    """One sentence each."""
    printed = planned.print
    if printed is None:
        return []
    width, height = (number(side, style) for side in printed.needed_mm)
    found = [say("No stock size covers {width} × {height}.", width=width, height=height)]
    if way is not None:
        border = number(float(way.border.mm), style)
        found.append(
            say("With a mat with borders of {border}, {stock} will do.", border=border, stock=way.fit.stock.shown)
        )
    for one in printed.advice:
        if one.fit is None:
            found.append(say("Or have the print made to size."))
            continue
        across, down = (number(side, style) for side in one.fit.short_mm)
        stock = one.fit.stock.shown
        if one.kind == "short":
            found.append(
                say(
                    "{stock} is short by {across}, {down}: lip or mat may hide that.",
                    stock=stock,
                    across=across,
                    down=down,
                )
            )
        elif one.kind == "larger":
            found.append(
                say("The largest, {stock}, is short by {across}, {down}.", stock=stock, across=across, down=down)
            )
    return found
