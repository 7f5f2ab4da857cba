"""The crop of a piece's picture and the print to order of it, with the stock that covers and how sharp it will be."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from PySide6.QtGui import QPixmap
from PySide6.QtWidgets import QVBoxLayout, QWidget

from composer.costing.shown import show_money
from composer.desktop import field_look as look
from composer.desktop.cards.bound import Bindings
from composer.desktop.cards.card import Working
from composer.desktop.cards.choice_rows import ChoiceRows, Offered
from composer.desktop.cards.print_working import carries, print_working, sharpness
from composer.desktop.cards.session import Session, merge_key, shown_in, try_apply
from composer.desktop.cards.trim_drawing import TrimBlock
from composer.desktop.cards.ways_out import WaysOut
from composer.desktop.field_kinds import ChoiceField, MoneyField, NumberField, TextField
from composer.desktop.field_row import FieldRow, LinkButton, Words
from composer.desktop.units_shown import number
from composer.editing.edits import Edit
from composer.editing.print_edits import choose_print, crop_anew, crop_picture
from composer.model import Crop, Key, PictureUse, Project
from composer.prints.choosing import Fit, nearest_short
from composer.prints.crop_gestures import dragged
from composer.prints.cropping import CropBox
from composer.prints.plan import PrintPlan, plan
from composer.prints.stock import stock_sizes
from composer.texts import say
from composer.units import LengthStyle


class PrintFields(QWidget):
    """Part of the picture section; shown for a piece that has a picture.

    Args:
        wanted: asks for an action by its name.
        picture_of: gives what shows of a piece's picture.
    """

    def __init__(
        self,
        session: Session,
        key: Key,
        wanted: Callable[[str], None],
        picture_of: Callable[[Key], QPixmap | None],
        parent: QWidget | None = None,
    ) -> None:
        super().__init__(parent)
        self._session, self._key, self._picture_of = session, key, picture_of
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
        self.unknown = Words(
            say("How large the print must be is known once the face of the moulding is measured."), 12, "pencil"
        )
        column.addWidget(self.unknown)
        self.refused = Words("", 12, "stop")
        self.refused.hide()
        column.addWidget(self.refused)
        self.ways_out = WaysOut(session, key)
        column.addWidget(self.ways_out)
        self.trim = TrimBlock(session, key)
        column.addWidget(self.trim)
        self.working = Working()
        column.addWidget(self.working)
        self.sharp = Words("", 12, "ok", semibold=True)
        column.addWidget(self.sharp)
        self.carries = Words("", 12, "pencil")
        column.addWidget(self.carries)
        self.patch = LinkButton(say("See a patch in its own size"))
        self.patch.clicked.connect(lambda _=False: wanted("patch"))
        column.addWidget(self.patch)
        column.addWidget(self._print_fields())

    def _crop_fields(self) -> FieldRow:
        zoom = NumberField(say("Zoom"), least=1, most=100)
        tilt = NumberField(say("Tilt, degrees"), least=-10, most=10)
        left = NumberField(say("Cut left, px"), least=0, most=1_000_000)
        top = NumberField(say("Cut top, px"), least=0, most=1_000_000)
        turn = ChoiceField(say("Turned"), [(0, say("upright")), (90, "90°"), (180, "180°"), (270, "270°")])
        self._bind_crop(zoom, "zoom", lambda crop: round(crop.zoom, 3), lambda crop, value: {"zoom": float(value or 1)})
        self._bind_crop(tilt, "tilt", lambda crop: crop.tilt_deg, lambda crop, value: {"tilt_deg": float(value or 0)})
        self._bind_crop(turn, "turn", lambda crop: crop.turn, lambda crop, value: {"turn": value})
        self._bind_cut(left, 0)
        self._bind_cut(top, 1)
        self._bound_to_plan = FieldRow(*((field.accessibleName(), field) for field in (zoom, tilt, turn, left, top)))
        return self._bound_to_plan

    def _box(self) -> CropBox | None:
        project = self._session.project
        piece = project.piece_by_key.get(self._key)
        printed = None if piece is None else plan(project, piece).print
        return None if printed is None else printed.crop

    def _bind_cut(self, field: Any, axis: int) -> None:
        """What is cut off at the left or the top of the picture as it stands, in whole pixels."""

        def get() -> float | None:
            box = self._box()
            if box is None:
                return None
            return max(0, round(box.centre[axis] - (box.width, box.height)[axis] / 2))

        def make(value: Any, gesture: int) -> Edit:
            project = self._session.project
            use, printed = self._use(), plan(project, project.piece_by_key[self._key]).print
            crop = Crop() if use is None else use.crop
            if printed is not None and printed.crop is not None and printed.pixels is not None:
                box = printed.crop
                long = (box.width, box.height)[axis]
                share = (box.centre[axis] - long / 2 - float(value or 0)) / long
                by = (share, 0.0) if axis == 0 else (0.0, share)
                crop = dragged(printed.pixels, crop, printed.needed_mm, *by)
            return crop_anew(project, self._key, crop, merge_key(f"crop-cut-{axis}", self._key, gesture))

        self._bindings.bind(field, get, make)

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
        self.refused.setText(try_apply(self._session, edit))
        self.refused.setVisible(bool(self.refused.text()))

    def refresh(self) -> None:
        """Shows the plan of the print as everything is now."""
        use, project = self._use(), self._session.project
        self.setVisible(use is not None)
        if use is None:
            return
        self._bindings.refresh()
        whole = plan(project, project.piece_by_key[self._key])
        planned, style = whole.print, shown_in(project)
        self.stock.show_offers(
            [] if planned is None else _offers(project, planned, style),
            None if planned is None or planned.fit is None else planned.fit.stock.id,
        )
        self.unknown.setVisible(whole.glass_mm is None)
        self.ways_out.show_plan(whole)
        self.trim.show_plan(planned, self._picture_of(self._key), style, bleeds=use.print.edge == "bleed")
        self.working.show_lines(print_working(whole, style))
        place = project.placement_by_piece.get(self._key)
        viewed = None if place is None else project.wall_by_key[place.wall].viewing_distance
        words, soft = (
            ("", False)
            if planned is None
            else sharpness(project, planned, style, None if viewed is None else float(viewed.mm))
        )
        self.sharp.set_shade("warn" if soft else "ok")
        self.sharp.setText(words)
        self.sharp.setVisible(bool(words))
        self.carries.setText("" if planned is None else carries(project, planned))
        self.carries.setVisible(bool(self.carries.text()))
        self.patch.setVisible(planned is not None and planned.crop is not None)


def _offers(project: Project, planned: PrintPlan, style: LengthStyle) -> list[Offered]:
    best, choice = planned.choice.best, planned.choice
    fits = [fit for fit in (best, *choice.runners_up) if fit is not None]
    if planned.fit is not None and planned.fit.stock.id not in {fit.stock.id for fit in fits}:
        fits.append(planned.fit)
    rows = []
    for fit in fits:
        trim = say("{across}, {down}", across=number(fit.trim_mm[0], style), down=number(fit.trim_mm[1], style))
        note = say("cut off {trim}", trim=trim) if fit.covers else _short(fit, style)
        note = say("{delivered}, {note}", delivered=_delivered(fit, style), note=note)
        if best is not None and fit.stock.id == best.stock.id:
            note = say("proposed; {note}", note=note)
        price = "" if fit.price is None else show_money(fit.price, project.currency)
        rows.append(Offered(fit.stock.id, fit.stock.shown, note, price))
    near = [one.fit for one in choice.advice if one.kind == "short" and one.fit is not None]
    if not near and (nearest := nearest_short(planned.needed_mm, stock_sizes(project.units, project.catalogue))):
        near = [nearest]
    for fit in near:
        note = say("{delivered}, {note}", delivered=_delivered(fit, style), note=_short(fit, style))
        rows.append(Offered(fit.stock.id, fit.stock.shown, note, "", can_be_taken=False))
    return rows


def _delivered(fit: Fit, style: LengthStyle) -> str:
    return say("{width} × {height}", width=number(fit.width_mm, style), height=number(fit.height_mm, style))


def _short(fit: Fit, style: LengthStyle) -> str:
    across, down = fit.short_mm
    return say("short by {across}, {down}", across=number(across, style), down=number(down, style))


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
