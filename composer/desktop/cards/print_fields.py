"""The crop of a piece's picture and the print to order of it, with the stock that covers and how sharp it will be."""

from __future__ import annotations

from typing import Any

from PySide6.QtWidgets import QVBoxLayout, QWidget

from composer.costing.shown import show_money
from composer.desktop import field_look as look
from composer.desktop.cards.bound import Bindings
from composer.desktop.cards.card import Working
from composer.desktop.cards.choice_rows import ChoiceRows, Offered
from composer.desktop.cards.session import Session, merge_key, shown_in, try_apply
from composer.desktop.field_kinds import ChoiceField, MoneyField, NumberField, TextField
from composer.desktop.field_row import FieldRow, LinkButton, Words
from composer.desktop.units_shown import number
from composer.editing.edits import Edit
from composer.editing.print_edits import choose_print, crop_anew, crop_picture
from composer.hanging.working import WrittenLine
from composer.model import Crop, Key, PictureUse, Project
from composer.prints.choosing import Fit
from composer.prints.plan import PrintPlan, plan
from composer.texts import say
from composer.units import LengthStyle


class PrintFields(QWidget):
    """Part of the picture section; shown for a piece that has a picture."""

    def __init__(self, session: Session, key: Key, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session, self._key = session, key
        self._bindings = Bindings(session)
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(look.px(6))
        column.addWidget(self._crop_fields())
        anew = LinkButton(say("Show the whole middle again"))
        anew.clicked.connect(self._on_anew)
        column.addWidget(anew)
        self.stock = ChoiceRows(say("Stock print"))
        self.stock.taken.connect(self._on_stock)
        column.addWidget(Words(say("Stock print, and what is cut off across and down"), 12, "pencil", semibold=True))
        column.addWidget(self.stock)
        self.advice = Words("", 12, "warn")
        column.addWidget(self.advice)
        column.addWidget(self._print_fields())
        self.working = Working()
        column.addWidget(self.working)
        self.sharp = Words("", 12, "ok")
        column.addWidget(self.sharp)

    def _crop_fields(self) -> FieldRow:
        zoom = NumberField(say("Zoom"), least=1, most=100)
        tilt = NumberField(say("Tilt, degrees"), least=-10, most=10)
        across = NumberField(say("Middle across, %"), least=0, most=100)
        down = NumberField(say("Middle down, %"), least=0, most=100)
        turn = ChoiceField(say("Turned"), [(0, say("upright")), (90, "90°"), (180, "180°"), (270, "270°")])
        self._bind_crop(zoom, "zoom", lambda crop: crop.zoom, lambda crop, value: {"zoom": float(value or 1)})
        self._bind_crop(tilt, "tilt", lambda crop: crop.tilt_deg, lambda crop, value: {"tilt_deg": float(value or 0)})
        self._bind_crop(turn, "turn", lambda crop: crop.turn, lambda crop, value: {"turn": value})
        self._bind_crop(
            across,
            "across",
            lambda crop: round(100 * crop.centre[0], 2),
            lambda crop, value: {"centre": (float(value if value is not None else 50) / 100, crop.centre[1])},
        )
        self._bind_crop(
            down,
            "down",
            lambda crop: round(100 * crop.centre[1], 2),
            lambda crop, value: {"centre": (crop.centre[0], float(value if value is not None else 50) / 100)},
        )
        return FieldRow(*((field.accessibleName(), field) for field in (zoom, tilt, turn, across, down)))

    def _print_fields(self) -> FieldRow:
        paper = TextField(say("Paper"), optional=True)
        cuts = [("left", say("upper left")), ("centred", say("in the middle")), ("right", say("upper right")),
                ("top", say("top")), ("bottom", say("bottom"))]  # fmt: skip
        cut = ChoiceField(say("Lies on the sheet"), cuts)
        edge = ChoiceField(say("Waste"), [("plain", say("white")), ("bleed", say("picture goes on"))])
        price = MoneyField(say("Price of the print"), currency=self._session.project.currency)
        for field, name in ((paper, "paper"), (cut, "cut"), (edge, "edge"), (price, "price")):
            self._bind_print(field, name)
        return FieldRow(*((field.accessibleName(), field) for field in (paper, cut, edge, price)))

    def _use(self) -> PictureUse | None:
        piece = self._session.project.piece_by_key.get(self._key)
        return None if piece is None or piece.current_use is None else piece.uses[piece.current_use]

    def _bind_crop(self, field: Any, name: str, read: Any, fields: Any) -> None:
        def crop() -> Crop:
            use = self._use()
            return Crop() if use is None else use.crop

        def make(value: Any, gesture: int) -> Edit:
            key = merge_key(f"crop-{name}", self._key, gesture)
            return crop_picture(self._session.project, self._key, key, **fields(crop(), value))

        self._bindings.bind(field, lambda: read(crop()), make)

    def _bind_print(self, field: Any, name: str) -> None:
        def get() -> Any:
            use = self._use()
            return None if use is None else getattr(use.print, name)

        def make(value: Any, gesture: int) -> Edit:
            key = merge_key(f"print-{name}", self._key, gesture)
            return choose_print(self._session.project, self._key, key, **{name: value})

        self._bindings.bind(field, get, make)

    def _on_anew(self, _: bool = False) -> None:
        try_apply(self._session, crop_anew(self._session.project, self._key, Crop()))

    def _on_stock(self, stock: str) -> None:
        use = self._use()
        again = use is not None and use.print.stock == stock
        edit = choose_print(self._session.project, self._key, stock=None if again else stock)
        self.advice.setText(try_apply(self._session, edit))

    def refresh(self) -> None:
        """Shows the plan of the print as everything is now."""
        use, project = self._use(), self._session.project
        self.setVisible(use is not None)
        if use is None:
            return
        self._bindings.refresh()
        planned = plan(project, project.piece_by_key[self._key]).print
        style = shown_in(project)
        self.stock.show_offers(
            [] if planned is None else _offers(planned, style, project.currency),
            None if planned is None or planned.fit is None else planned.fit.stock.id,
        )
        self.advice.setText("" if planned is None else _advice(planned, style))
        self.advice.setVisible(bool(self.advice.text()))
        self.working.show_lines([] if planned is None else _working(planned, style))
        words, soft = ("", False) if planned is None else _sharpness(planned)
        self.sharp.set_shade("warn" if soft else "ok")
        self.sharp.setText(words)
        self.sharp.setVisible(bool(words))


def _offers(planned: PrintPlan, style: LengthStyle, currency: str) -> list[Offered]:
    best, choice = planned.choice.best, planned.choice
    fits = [fit for fit in (best, *choice.runners_up) if fit is not None]
    if planned.fit is not None and planned.fit.stock.id not in {fit.stock.id for fit in fits}:
        fits.append(planned.fit)
    rows = []
    for fit in fits:
        trim = say("{across}, {down}", across=number(fit.trim_mm[0], style), down=number(fit.trim_mm[1], style))
        note = say("cut off {trim}", trim=trim) if fit.covers else _short(fit, style)
        if best is not None and fit.stock.id == best.stock.id:
            note = say("proposed; {note}", note=note)
        price = "" if fit.price is None else show_money(fit.price, currency)
        rows.append(Offered(fit.stock.id, fit.stock.shown, note, price))
    rows += [
        Offered(one.fit.stock.id, one.fit.stock.shown, _short(one.fit, style), "", can_be_taken=False)
        for one in choice.advice
        if one.kind == "short" and one.fit is not None
    ]
    return rows


def _short(fit: Fit, style: LengthStyle) -> str:
    across, down = fit.short_mm
    return say("short by {across}, {down}", across=number(across, style), down=number(down, style))


def _advice(planned: PrintPlan, style: LengthStyle) -> str:
    if planned.choice.best is not None:
        return ""
    width, height = (number(side, style) for side in planned.needed_mm)
    return say("No stock size covers {width} × {height}; have it made to size.", width=width, height=height)


def _working(planned: PrintPlan, style: LengthStyle) -> list[WrittenLine]:
    width, height = (number(side, style) for side in planned.needed_mm)
    lines = [
        WrittenLine(
            say("size needed"),
            say("width × height"),
            say("{width} × {height}", width=width, height=height),
            (),
            say("The glass, or with a mat its window and twice the overlap."),
        )
    ]
    if planned.ppi is not None and planned.crop is not None:
        inches = planned.needed_mm[0] / 25.4
        lines.append(
            WrittenLine(
                say("sharpness"),
                say("{pixels} ÷ {inches} in", pixels=f"{planned.crop.width:.0f}", inches=f"{inches:.1f}"),
                say("{ppi} ppi", ppi=f"{planned.ppi:.0f}"),
                (),
                say("Pixels kept over the inches they fill."),
            )
        )
    return lines


def _sharpness(planned: PrintPlan) -> tuple[str, bool]:
    if planned.ppi is None:
        return say("How sharp it will be is known once the picture file has been read."), False
    ppi, needed = f"{planned.ppi:.0f}", f"{planned.ppi_needed:.0f}"
    if planned.soft:
        return say("{ppi} ppi is soft from where one looks: {needed} would do.", ppi=ppi, needed=needed), True
    return say("{ppi} ppi: sharp from where one looks ({needed} would do).", ppi=ppi, needed=needed), False


def print_words(project: Project, key: Key) -> str:
    """What to order, in one sentence; empty where nothing can be said yet."""
    piece = project.piece_by_key[key]
    if piece.current_use is None:
        return ""
    planned = plan(project, piece).print
    if planned is None:
        return ""
    style = shown_in(project)
    if planned.fit is None:
        return say("No stock size covers it.")
    width, height = (number(side, style) for side in planned.needed_mm)
    words = say("Buy {stock}, trim to {width} × {height}", stock=planned.fit.stock.shown, width=width, height=height)
    if planned.ppi is None:
        return say("{words}.", words=words)
    return say("{words}, {ppi} ppi.", words=words, ppi=f"{planned.ppi:.0f}")
