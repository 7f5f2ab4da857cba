"""What if acrylic, a packet's figures, classes of one's own: in the cards, as a step that can be undone."""

from __future__ import annotations

from typing import Any

import msgspec
import pytest
from PySide6.QtWidgets import QApplication

from composer.catalogue.catalogue import of
from composer.desktop.cards.own_classes import new_id
from composer.desktop.cards.packet_figures import PacketFigures
from composer.desktop.cards.what_if import WhatIf
from composer.desktop.field_row import LinkButton
from composer.desktop.fields import EntryField
from composer.desktop.main_window import MainWindow
from composer.hanging.points import hang
from composer.model import Frame, Hanger, Piece
from composer.units import Length, Mass
from tests.desktop.conftest import room_project
from tests.desktop.hands import click

mm = Length.from_text


@pytest.fixture
def glazed(window: MainWindow, qapp: QApplication) -> MainWindow:
    """Piece 1: 500 × 400 on strips, weighed at 1.5 kg, glass 460 × 360 × 2 mm."""
    project = room_project()
    frame = Frame(
        width=mm("500 mm"),
        height=mm("400 mm"),
        face=mm("40 mm"),
        lip=mm("6 mm"),
        depth=mm("20 mm"),
        glass_width=mm("460 mm"),
        glass_height=mm("360 mm"),
        glazing="glass",
        glazing_thickness=mm("2 mm"),
    )
    piece = Piece(
        key="p1",
        number=1,
        name="Boats",
        frame=frame,
        hanger=Hanger(kind="strips", strip_size="medium", strip_pairs=4),
        weight=Mass.from_text("1.5 kg"),
    )
    wall = msgspec.structs.replace(project.walls[0], surface="painted-board")
    window.opened.open(msgspec.structs.replace(project, walls=(wall,), pieces=(piece, *project.pieces[1:])), None)
    window.selection.set(["p1"])
    window.card.open_section("hanging")
    qapp.processEvents()
    return window


def part(window: MainWindow, kind: type[Any]) -> Any:
    (found,) = window.card.findChildren(kind)
    return found


def typed(field: Any, text: str) -> None:
    field.setFocus()
    field.lineEdit().setText(text)
    field.lineEdit().textEdited.emit(text)
    field.commit()
    QApplication.processEvents()


def named(parent: Any, name: str) -> Any:
    return next(field for field in parent.findChildren(EntryField) if field.accessibleName() == name)


def shown(window: MainWindow, widget: Any) -> Any:
    """Scrolled to, as a person would before clicking."""
    card: Any = window.card.card
    card.ensureWidgetVisible(widget)
    QApplication.processEvents()
    return widget


def test_what_if_it_were_acrylic_is_one_click_and_one_step(glazed: MainWindow) -> None:
    what_if = part(glazed, WhatIf)
    # 0.46 · 0.36 · 0.002 m³ · (2 500 − 1 190) kg/m³ = 0.434 kg less (EN 572-1, ISO 7823-1): 1.07 and a little.
    assert "instead of 1.5 kg" in what_if.words.text().replace("\u00a0", " ")
    # Four medium pairs carry 3.6 kg by their class: 2.4 times 1.5 kg.
    assert "not 2.4" in what_if.words.text()
    steps = glazed.opened.stack.count()
    click(shown(glazed, what_if.take))
    piece = glazed.opened.project.piece_by_key["p1"]
    assert piece.frame.glazing == "acrylic"
    assert piece.weight is not None
    assert 1.066 <= piece.weight.kg < 1.13
    assert glazed.opened.stack.count() == steps + 1
    assert not what_if.isVisible()
    glazed.opened.stack.undo()
    QApplication.processEvents()
    assert glazed.opened.project.piece_by_key["p1"].weight == Mass.from_text("1.5 kg")
    assert part(glazed, WhatIf).isVisible()


def test_a_packets_figures_are_typed_and_taken_back(glazed: MainWindow) -> None:
    figures = part(glazed, PacketFigures)
    click(shown(glazed, figures.link))
    before = of(glazed.opened.project.catalogue).strip_classes["medium"]
    typed(named(figures, "A strip is wide"), "19")
    typed(named(figures, "Wait before hanging, min"), "90")
    after = of(glazed.opened.project.catalogue).strip_classes["medium"]
    assert (after.width_mm, after.wait_min, after.status) == (19, 90, "packet")
    plan = hang(glazed.opened.project.piece_by_key["p1"], catalogue=of(glazed.opened.project.catalogue)).strips
    assert plan is not None
    assert float(plan.width_mm) == 19.0
    assert "off your packet" in figures.heading.text()
    click(shown(glazed, figures.undo))
    assert of(glazed.opened.project.catalogue).strip_classes["medium"] == before
    glazed.opened.stack.undo()
    assert of(glazed.opened.project.catalogue).strip_classes["medium"].width_mm == 19


def test_a_figure_that_cannot_be_says_so_and_changes_nothing(glazed: MainWindow) -> None:
    figures = part(glazed, PacketFigures)
    click(shown(glazed, figures.link))
    field = named(figures, "Wait before hanging, min")
    before = glazed.opened.project
    typed(field, "soon")
    assert "soon" in field.wrong
    assert glazed.opened.project is before


def open_own(window: MainWindow) -> Any:
    window.selection.clear()
    QApplication.processEvents()
    card: Any = window.card.card
    for name, section in card.sections.items():
        section.set_open(name == "own-classes")
    QApplication.processEvents()
    return card._contents["own-classes"]


def test_a_moulding_of_ones_own_is_added_changed_and_deleted(window: MainWindow) -> None:
    own = open_own(window)
    typed(own.name_field, "Bamboo, glued")
    typed(own.figures["density_kg_m3"], "700")
    typed(own.source_field, "my scales")
    click(shown(window, own.add))
    (entry,) = window.opened.project.catalogue.own
    assert (entry.kind, entry.id, entry.source) == ("moulding", "bamboo-glued", "my scales")
    assert of(window.opened.project.catalogue).mouldings["bamboo-glued"].kg_per_m3() == 700
    assert own.name_field.value == ""

    def link(words: str) -> LinkButton:
        found = window.card.findChildren(LinkButton)
        return next(one for one in found if one.accessibleName() == words and one.isVisible())

    click(shown(window, link("Change Bamboo, glued")))
    typed(own.figures["density_kg_m3"], "680")
    click(shown(window, own.add))
    assert of(window.opened.project.catalogue).mouldings["bamboo-glued"].kg_per_m3() == 680
    assert len(window.opened.project.catalogue.own) == 1
    click(shown(window, link("Delete Bamboo, glued")))
    assert not window.opened.project.catalogue.own
    window.opened.stack.undo()
    assert len(window.opened.project.catalogue.own) == 1


def test_a_fixing_of_ones_own_is_offered_where_it_holds(window: MainWindow) -> None:
    own = open_own(window)
    own.kind_field.committed.emit("fixing")
    QApplication.processEvents()
    typed(own.name_field, "Brass pin")
    typed(own.figures["load_kg"], "4")
    typed(own.figures["offset_mm"], "9")
    own.walls["plaster"].setChecked(True)
    own.walls["plaster"].committed.emit(True)
    click(shown(window, own.add))
    made = of(window.opened.project.catalogue).fixings["brass-pin"]
    assert (made.load_kg, made.offset_mm, made.walls, made.status) == (4, 9, ("plaster",), "own")


def test_a_class_without_its_weight_is_not_added(window: MainWindow) -> None:
    own = open_own(window)
    typed(own.name_field, "Bamboo")
    click(shown(window, own.add))
    assert not window.opened.project.catalogue.own
    assert "Weighs" in own.message.text()


@pytest.mark.parametrize(
    ("kind", "name", "expected"),
    # "pine" and "nail" are the program's own; they keep their figures.
    [("moulding", "Pine", "pine-2"), ("fixing", "nail", "nail-2"), ("wire", "Fil d'acier", "fil-d-acier"), ("moulding", "竹", "own")],
)  # fmt: skip
def test_an_id_is_made_from_the_name_and_never_taken(kind: str, name: str, expected: str) -> None:
    assert new_id(room_project(), kind, name) == expected
