"""What can hold a piece on its wall: the one proposed, others, and why the rest cannot; one click takes it."""

from __future__ import annotations

from PySide6.QtWidgets import QVBoxLayout, QWidget

from composer.catalogue import catalogue
from composer.catalogue.names import name_of
from composer.desktop import field_look as look
from composer.desktop.cards.bound import Bindings
from composer.desktop.cards.choice_rows import ChoiceRows, Offered
from composer.desktop.cards.session import Session, shown_in, try_apply
from composer.desktop.field_measures import MassField
from composer.desktop.field_row import FieldRow, Words
from composer.editing.catalogue_edits import type_over
from composer.editing.edits import Edit
from composer.editing.piece_edits import choose_fixing
from composer.findings.sentences_of_offers import why_not
from composer.hanging.fixings import Offer, offers, proposal
from composer.hanging.points import hang
from composer.model import Key, Wall
from composer.texts import say
from composer.units import KG_PER, Mass, show_mass

MOST = 4
"""Classes that hold, shown at once."""

MOST_REFUSED = 2
"""Classes that do not, shown with the reason."""


class FixingOffers(QWidget):
    """Part of the hanging section; empty where nothing in the wall holds the piece."""

    def __init__(self, session: Session, key: Key, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._session, self._key = session, key
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(look.px(4))
        self.heading = Words("", 12, "pencil", semibold=True)
        column.addWidget(self.heading)
        self.rows = ChoiceRows(say("What holds it"))
        self.rows.taken.connect(self._on_taken)
        column.addWidget(self.rows)
        self.message = Words("", 12, "stop")
        self.message.hide()
        column.addWidget(self.message)
        self._packet = MassField(say("By your packet one holds"))
        self._packet_row = FieldRow((self._packet.accessibleName(), self._packet))
        column.addWidget(self._packet_row)
        self._packet_note = Words(
            say("Until you type it, the figure is our default of a class. The packet wins."), 12, "pencil"
        )
        column.addWidget(self._packet_note)
        self._bindings = Bindings(session)
        self._bindings.bind(self._packet, self._load, self._typed)

    def _wall(self) -> Wall:
        project = self._session.project
        place = project.placement_by_piece.get(self._key)
        return project.walls[0] if place is None else project.wall_by_key[place.wall]

    def offered(self) -> tuple[Offer, ...]:
        """Every class, those that hold first."""
        project = self._session.project
        place = project.placement_by_piece.get(self._key)
        known = catalogue.of(project.catalogue)
        piece = project.piece_by_key[self._key]
        hanging = hang(piece, turned=place is not None and place.turned, catalogue=known)
        return offers(piece, hanging, self._wall(), known, None if place is None else (place.left, place.bottom))

    def refresh(self) -> None:
        """Shows what holds it as everything is now."""
        project = self._session.project
        if self._key not in project.piece_by_key:
            return
        found = self.offered()
        chosen = project.piece_by_key[self._key].hardware
        best = proposal(found)
        style = shown_in(project)
        unit = project.mass_unit
        rows: list[Offered] = []
        for offer in found:
            if offer.holds and len([row for row in rows if row.can_be_taken]) < MOST:
                note = (
                    say("carries {mass} in all", mass=show_mass(offer.capacity_kg, unit)) if offer.capacity_kg else ""
                )
                if best is not None and offer.fixing.id == best.fixing.id:
                    note = say("proposed; {note}", note=note) if note else say("proposed")
                figure = "" if offer.margin is None else say("{factor} times", factor=f"{offer.margin:.1f}")
                name = say("{count} × {name}", count=offer.count, name=name_of(offer.fixing))
                rows.append(Offered(offer.fixing.id, name, note, figure))
        refused = [offer for offer in found if not offer.holds and offer.why_not != "hanger"]
        rows += [
            Offered(offer.fixing.id, name_of(offer.fixing), why_not(offer, style), "", can_be_taken=False)
            for offer in refused[:MOST_REFUSED]
        ]
        self.heading.setText(say("What can hold it in {wall}", wall=self._wall().name))
        self.heading.setVisible(bool(rows))
        self.rows.show_offers(rows, None if chosen is None else chosen.fixing)
        strips = project.piece_by_key[self._key].hanger.kind == "strips"
        shown = chosen is not None or strips
        self._packet_row.setVisible(shown)
        self._packet_note.setVisible(shown)
        if shown:
            self._bindings.refresh()
        self.setVisible(bool(rows) or shown)

    def _figure(self) -> tuple[str, str]:
        """Entry and field of the figure a packet states for what is chosen."""
        project = self._session.project
        piece = project.piece_by_key[self._key]
        known = catalogue.of(project.catalogue)
        if piece.hanger.kind == "strips":
            plan = hang(piece, catalogue=known).strips
            size = piece.hanger.strip_size or (plan.size if plan is not None else "medium")
            return known.strip_classes[size].entry, "rating_kg"
        fixing = "" if piece.hardware is None else piece.hardware.fixing
        return known.fixings[fixing].entry if fixing in known.fixings else "", "load_kg"

    def _typed(self, value: Mass | None, _: int) -> Edit:
        return type_over(*self._figure(), None if value is None else float(value.kg))

    def _load(self) -> Mass | None:
        """What one holds, in the project's unit."""
        kg = self._load_kg()
        if kg is None:
            return None
        unit = self._session.project.mass_unit
        return Mass.from_text(f"{round(kg / float(KG_PER[unit]), 4):g} {unit}")

    def _load_kg(self) -> float | None:
        project = self._session.project
        piece = project.piece_by_key.get(self._key)
        if piece is None:
            return None
        known = catalogue.of(project.catalogue)
        if piece.hanger.kind == "strips":
            entry, _ = self._figure()
            return next((one.rating_kg for one in known.strip_classes.values() if one.entry == entry), None)
        record = None if piece.hardware is None else known.fixings.get(piece.hardware.fixing)
        return None if record is None else record.load_kg

    def _on_taken(self, fixing: str) -> None:
        project = self._session.project
        chosen = project.piece_by_key[self._key].hardware
        again = chosen is not None and chosen.fixing == fixing
        refusal = try_apply(self._session, choose_fixing(project, self._key, "" if again else fixing))
        self.message.setText(refusal)
        self.message.setVisible(bool(refusal))
