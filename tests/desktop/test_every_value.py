"""Every value of the model is edited somewhere: typed into its field, it stands in the project, and undo takes it back.

The fields of the records are read from the records themselves, so a new one without a place here fails.
"""

from collections.abc import Callable
from decimal import Decimal
from typing import Any

import msgspec
import pytest
from PySide6.QtWidgets import QApplication, QWidget

from composer.desktop.cards.piece_card import PieceCard
from composer.desktop.field_kinds import CheckField, ChoiceField, NoteField
from composer.desktop.fields import EntryField
from composer.desktop.main_window import MainWindow
from composer.editing.record_edits import change_piece
from composer.model import (
    Arrangement,
    CustomBorders,
    EvenBorders,
    Frame,
    Hanger,
    HardwareChoice,
    Mat,
    MatLayer,
    Obstacle,
    Picture,
    PictureUse,
    Piece,
    Project,
    RatioBorders,
    Wall,
    WeightedBorders,
)
from composer.model.wall import Datum
from composer.units import Length, Mass
from tests.desktop.conftest import room_project

mm = Length.from_text


def full_project() -> Project:
    """Piece 1 with a mat, a picture, hardware and a column of its own; one obstacle; wire as hanger."""
    project = room_project()
    piece = project.pieces[0]
    piece = msgspec.structs.replace(
        piece,
        hanger=Hanger(kind="wire", drop=mm("40 mm"), hooks=2),
        mat=Mat(layers=(MatLayer(board="mat-4-ply"), MatLayer(board="mat-4-ply"))),
        uses=(PictureUse(picture="i21"),),
        current_use=0,
        extra=(("Room", "hall"),),
    )
    return msgspec.structs.replace(
        project, pieces=(piece, *project.pieces[1:]), pictures=(Picture(key="i21", path="boats.jpg"),)
    )


@pytest.fixture
def full(window: MainWindow, qapp: QApplication) -> MainWindow:
    window.opened.open(full_project(), None)
    window.resize(1440, 1000)
    qapp.processEvents()
    return window


def enter(window: MainWindow, section: str, name: str, value: Any) -> None:
    """Opens a section and puts a value into the field of that name, as a person does."""
    card = window.card.card
    assert card is not None
    sections: dict[str, Any] = card.sections  # type: ignore[attr-defined]
    if section:
        sections[section].set_open(True)
        root: QWidget = sections[section]
    else:
        root = card
    QApplication.processEvents()
    for field in root.findChildren(QWidget):
        if field.accessibleName() != name or not field.isVisibleTo(card):
            continue
        if isinstance(field, EntryField):
            field.setFocus()
            field.lineEdit().setText(value)
            field.lineEdit().textEdited.emit(value)
            assert field.commit(), field.wrong
        elif isinstance(field, ChoiceField):
            row = next(row for row in range(field.count()) if field.itemData(row) == value)
            field.setCurrentIndex(row)
            field.activated.emit(row)
        elif isinstance(field, CheckField):
            field.click()
        elif isinstance(field, NoteField):
            field.setPlainText(value)
            field.commit()
        else:
            continue
        QApplication.processEvents()
        return
    raise AssertionError(f"no field {name!r} in {section!r}")


Get = Callable[[Project], Any]
Row = tuple[str, str, Any, Get, Any]


def piece(project: Project) -> Piece:
    return project.piece_by_key["p1"]


def frame(name: str) -> Get:
    return lambda project: getattr(piece(project).frame, name)


def hanger(name: str) -> Get:
    return lambda project: getattr(piece(project).hanger, name)


def of_mat(name: str) -> Get:
    return lambda project: getattr(piece(project).mat, name)


def of_piece(name: str) -> Get:
    return lambda project: getattr(piece(project), name)


def wall(name: str) -> Get:
    return lambda project: getattr(project.walls[0], name)


def datum(name: str) -> Get:
    return lambda project: getattr(project.walls[0].datum, name)


def obstacle(name: str) -> Get:
    return lambda project: getattr(project.walls[0].obstacles[0], name)


def of_project(name: str) -> Get:
    return lambda project: getattr(project, name)


def arrangement(name: str) -> Get:
    return lambda project: getattr(project.arrangement, name)


FRAME: list[Row] = [
    ("frame", "Width", "51 cm", frame("width"), mm("51 cm")),
    ("frame", "Height", "16 1/4 in", frame("height"), mm("16 1/4 in")),
    ("frame", "Depth", "22", frame("depth"), mm("22 mm")),
    ("frame", "Face", "24", frame("face"), mm("24 mm")),
    ("frame", "Lip", "6.5", frame("lip"), mm("6.5 mm")),
    ("frame", "Rabbet depth", "12", frame("rabbet_depth"), mm("12 mm")),
    ("frame", "Allowance", "0", frame("allowance"), mm("0 mm")),
    ("frame", "Sight width", "450", frame("sight_width"), mm("450 mm")),
    ("frame", "Sight height", "350", frame("sight_height"), mm("350 mm")),
    ("frame", "Glass width", "460", frame("glass_width"), mm("460 mm")),
    ("frame", "Glass height", "360", frame("glass_height"), mm("360 mm")),
    ("frame", "Moulding", "oak", frame("moulding"), "oak"),
    ("frame", "Glazing", "acrylic", frame("glazing"), "acrylic"),
    ("frame", "Diagonal, rising", "640", frame("diagonal_rising"), mm("640 mm")),
    ("frame", "Diagonal, falling", "641", frame("diagonal_falling"), mm("641 mm")),
    ("frame", "Moulding's section, mm²", "300", frame("profile_area_mm2"), 300),
    ("frame", "Colour", "dark oak", frame("colour"), "dark oak"),
    ("frame", "Condition", "one joint loose", frame("condition"), "one joint loose"),
    ("frame", "Backing", "mdf", frame("backing"), "mdf"),
]
PIECE: list[Row] = [
    ("frame", "Name", "Boats", of_piece("name"), "Boats"),
    ("frame", "Weight, with everything in it", "1.2 kg", of_piece("weight"), Mass.from_text("1.2 kg")),
    ("frame", "Stage", "framed", of_piece("stage"), "framed"),
    ("cost", "Price of the frame", "3.50", of_piece("price"), Decimal("3.50")),
    ("cost", "Already paid for", None, of_piece("owned"), True),
    ("notes", "Note", "from the flea market", of_piece("note"), "from the flea market"),
    ("notes", "Room", "kitchen", of_piece("extra"), (("Room", "kitchen"),)),
    ("picture", "Shows", None, of_piece("current_use"), None),
    ("picture", "What for", "summer", lambda project: piece(project).uses[0].label, "summer"),
]
PICTURE: list[Row] = [
    ("picture", "File", "summer/boats.jpg", lambda project: project.pictures[0].path, "summer/boats.jpg"),
    ("picture", "Source", "own photo", lambda project: project.pictures[0].source, "own photo"),
    ("picture", "Licence", "CC BY 4.0", lambda project: project.pictures[0].licence, "CC BY 4.0"),
]
HANGER: list[Row] = [
    ("hanging", "Drop", "48", hanger("drop"), mm("48 mm")),
    ("hanging", "Wire, ring to ring", "350", hanger("wire"), mm("350 mm")),
    ("hanging", "Spacing", "300", hanger("spacing"), mm("300 mm")),
    ("hanging", "Ring, right here", "90", hanger("ring_drop"), mm("90 mm")),
    ("hanging", "Ring, left here", "92", hanger("ring_drop_right"), mm("92 mm")),
    ("hanging", "Hooks", 1, hanger("hooks"), 1),
    ("hanging", "Between the hooks", "200", hanger("hook_spacing"), mm("200 mm")),
    # Right of the middle as seen from the back is left of it from the front.
    ("hanging", "Off the middle, + right here", "5", hanger("offset"), mm("-5 mm")),
    ("hanging", "Kind of wire", "wire-10", hanger("wire_class"), "wire-10"),
    ("hanging", "Fixing in the wall", "nail", lambda project: piece(project).hardware.fixing, "nail"),  # type: ignore[union-attr]
    ("hanging", "How many", "2", lambda project: piece(project).hardware.count, 2),  # type: ignore[union-attr]
    ("hanging", "Seat up to hole", "12", lambda project: piece(project).hardware.hook_offset, mm("12 mm")),  # type: ignore[union-attr]
]
MAT: list[Row] = [
    ("mat", "Window width", "300", of_mat("window_width"), mm("300 mm")),
    ("mat", "Window height", "200", of_mat("window_height"), mm("200 mm")),
    ("mat", "Overlap", "-3", of_mat("overlap"), mm("-3 mm")),
    ("mat", "Border", "40", of_mat("borders"), EvenBorders(border=mm("40 mm"))),
    ("mat", "Borders", WeightedBorders, lambda project: type(piece(project).mat.borders), WeightedBorders),  # type: ignore[union-attr]
    ("mat", "Borders", RatioBorders, lambda project: type(piece(project).mat.borders), RatioBorders),  # type: ignore[union-attr]
    ("mat", "Borders", CustomBorders, lambda project: type(piece(project).mat.borders), CustomBorders),  # type: ignore[union-attr]
    ("mat", "Cut with a bevel, 45°", None, of_mat("bevel"), False),
    ("mat", "Board 1", "mat-8-ply", lambda project: piece(project).mat.layers[0].board, "mat-8-ply"),  # type: ignore[union-attr]
    ("mat", "Colour", "off-white", lambda project: piece(project).mat.layers[0].colour, "off-white"),  # type: ignore[union-attr]
    ("mat", "Shows by", "5", lambda project: piece(project).mat.layers[1].reveal, mm("5 mm")),  # type: ignore[union-attr]
]
WALL: list[Row] = [
    ("outline", "Name", "Long wall", wall("name"), "Long wall"),
    ("outline", "Width", "3.5 m", wall("width"), mm("3.5 m")),
    ("outline", "Height", "2.5 m", wall("height"), mm("2.5 m")),
    ("outline", "Seen from", "2.5 m", wall("viewing_distance"), mm("2.5 m")),
    ("outline", "Left end", "door", wall("left_end"), "door"),
    ("outline", "Right end", "free", wall("right_end"), "free"),
    ("outline", "Skirting", "80", wall("skirting"), mm("80 mm")),
    ("outline", "A stair runs along this wall", None, lambda project: project.walls[0].nosing is not None, True),
    ("kind", "Kind", "plaster", wall("surface"), "plaster"),
    ("kind", "No holes here", None, wall("no_holes"), True),
    ("kind", "First stud", "200", wall("stud_first"), mm("200 mm")),
    ("kind", "Stud to stud", "600", wall("stud_spacing"), mm("600 mm")),
    ("kind", "Paint, #RRGGBB", "#EFE9E1", wall("paint"), "#EFE9E1"),
    ("heights", "Eye line", "1500", wall("eye_line"), mm("1500 mm")),
    ("heights", "Margin at the edges", "100", wall("edge_margin"), mm("100 mm")),
    ("heights", "Heights from", "line", datum("height"), "line"),
    ("heights", "Level line at", "1400", datum("line"), mm("1400 mm")),
    ("heights", "Distances from", "plumb", datum("side"), "plumb"),
    ("heights", "Plumb line at", "500", datum("plumb"), mm("500 mm")),
    ("obstacles", "Kind", "bed", obstacle("kind"), "bed"),
    ("obstacles", "Name", "day bed", obstacle("name"), "day bed"),
    ("obstacles", "Width", "1900", obstacle("width"), mm("1900 mm")),
    ("obstacles", "Height", "600", obstacle("height"), mm("600 mm")),
    ("obstacles", "Depth", "800", obstacle("depth"), mm("800 mm")),
    ("obstacles", "Left, mm", "500", obstacle("left"), 500),
    ("obstacles", "Bottom, mm", "10", obstacle("bottom"), 10),
    ("obstacles", "Keep clear", "150", obstacle("margin"), mm("150 mm")),
    ("cables", "Cable rule", "uk", of_project("region"), "uk"),
    ("arrangement", "Name", "second", arrangement("name"), "second"),
    ("arrangement", "Gap wanted", "60", arrangement("gap"), mm("60 mm")),
    ("arrangement", "Note", "try the fern lower", arrangement("note"), "try the fern lower"),
    ("project", "Title", "Quayside", of_project("title"), "Quayside"),
    ("project", "Units", "imperial", of_project("units"), "imperial"),
    ("project", "Inches to", 32, of_project("fraction"), 32),
    ("project", "Currency", "gbp", of_project("currency"), "GBP"),
    ("project", "Budget", "250", lambda project: project.money.budget, Decimal("250.00")),
    ("project", "Earthquake advice", None, of_project("quake"), True),
]


OF_A_FIXING = ("How many", "Seat up to hole")
"""What means nothing before a fixing is chosen."""


def named(row: Row) -> str:
    return f"{row[0]}: {row[1]}"


def check(window: MainWindow, row: Row) -> None:
    section, name, value, get, expected = row
    if name in OF_A_FIXING:
        enter(window, section, "Fixing in the wall", "nail")
    before = window.opened.project
    assert get_or_none(get, before) != expected
    enter(window, section, name, value)
    assert get(window.opened.project) == expected
    window.opened.stack.undo()
    assert window.opened.project is before


def get_or_none(get: Get, project: Project) -> Any:
    try:
        return get(project)
    except AttributeError:
        return None


@pytest.mark.parametrize("row", [*FRAME, *PIECE, *PICTURE, *HANGER, *MAT], ids=named)
def test_every_value_of_a_piece(full: MainWindow, row: Row) -> None:
    full.selection.set(["p1"])
    check(full, row)


@pytest.mark.parametrize("row", WALL, ids=named)
def test_every_value_of_wall_arrangement_and_project(full: MainWindow, row: Row) -> None:
    full.selection.clear()
    check(full, row)


@pytest.mark.parametrize(
    ("kind", "name", "value", "field", "expected"),
    [
        ("d-rings", "Drop, left here", "50", "drop_right", mm("50 mm")),
        ("strips", "Size", "large", "strip_size", "large"),
        ("strips", "Pairs", 4, "strip_pairs", 4),
        ("strips", "Width", True, "strip_half", True),
    ],
)
def test_values_of_other_hangers(full: MainWindow, kind: Any, name: str, value: Any, field: str, expected: Any) -> None:
    def change(one: Piece) -> Piece:
        return msgspec.structs.replace(one, hanger=Hanger(kind=kind))

    full.opened.apply(change_piece("p1", "Hanger", change))
    full.selection.set(["p1"])
    check(full, ("hanging", name, value, hanger(field), expected))


def test_how_it_hangs_is_chosen_by_its_little_back(full: MainWindow) -> None:
    full.selection.set(["p1"])
    full.card.open_section("hanging")
    tiles = full.card.card._contents["hanging"].tiles  # type: ignore[union-attr]
    tiles.tiles["cleat"].click()
    assert piece(full.opened.project).hanger.kind == "cleat"


def test_an_outline_corner_by_corner(full: MainWindow) -> None:
    full.selection.clear()
    corners = full.card.card._corners  # type: ignore[union-attr]
    corners.add.click()
    # The upper edge runs from 3200 to 0 at 2400: its middle.
    assert full.opened.project.walls[0].outline == ((0, 0), (3200, 0), (3200, 2400), (1600, 2400), (0, 2400))
    enter(full, "outline", "from floor, mm", "0")  # the first corner's own height, as it is
    assert len(full.opened.project.walls[0].corners) == 5
    corners.square.click()
    assert full.opened.project.walls[0].outline is None


def test_a_stop_is_gone_on_against_for_a_reason_only(full: MainWindow) -> None:
    def change(one: Piece) -> Piece:
        return msgspec.structs.replace(one, hanger=Hanger(kind="sawtooth", drop=mm("900 mm")))  # below a frame of 400

    full.opened.apply(change_piece("p1", "Hanger", change))
    full.selection.set(["p1"])
    before = full.opened.project
    card = full.card.card
    assert isinstance(card, PieceCard)
    card.sections["notes"].set_open(True)
    field = next(one for one in card.findChildren(EntryField) if one.accessibleName().startswith("Go on all the same"))
    field.lineEdit().setText("no")
    field.lineEdit().textEdited.emit("no")
    field.commit()
    assert full.opened.project is before
    assert "three letters" in field.wrong
    enter(full, "notes", "Go on all the same, because", "held by a ledge below")
    assert [one.reason for one in full.opened.project.overrides] == ["held by a ledge below"]


ELSEWHERE = {
    "Frame": {"moulding_thickness", "glazing_thickness", "backing_thickness"},  # three fields of one name: below
    "Piece": {
        "key", "number",  # given once, never changed
        "frame", "mat", "hanger", "hardware",  # records of their own
        "uses", "hanger_turned",  # a picture dropped or chosen; the hanging section of a turned piece
    },
    "Picture": {"key", "sha256", "size_bytes", "pixels", "profile"},  # read from the file
    "Hanger": {"kind"},  # little backs
    "HardwareChoice": set(),
    "Mat": {"layers"},
    "MatLayer": set(),
    "Wall": {"key", "datum", "obstacles", "outline", "nosing"},
    "Datum": set(),
    "Obstacle": {"key"},
    "Arrangement": {
        "key", "placements", "floor_order",  # by moving pieces
        "relations", "made_by",  # written by arranging
    },
    "Project": {
        "next_key", "next_number", "walls", "pieces", "pictures", "arrangements", "current_arrangement",
        "paper",  # the printing window
        "overrides", "catalogue", "money", "as_hung",  # records of their own
    },
}  # fmt: skip
"""Fields that have no field of a card, and why."""

EDITED = {
    "Frame": {"width", "height", "depth", "face", "lip", "rabbet_depth", "allowance", "sight_width", "sight_height",
              "glass_width", "glass_height", "moulding", "profile_area_mm2", "glazing", "backing", "colour",
              "diagonal_rising", "diagonal_falling", "condition"},
    "Piece": {"name", "note", "current_use", "weight", "owned", "price", "stage", "extra"},
    "Picture": {"path", "source", "licence"},
    "Hanger": {"drop", "drop_right", "spacing", "offset", "wire", "ring_drop", "ring_drop_right", "hooks",
               "hook_spacing", "wire_class", "strip_size", "strip_pairs", "strip_half"},
    "HardwareChoice": {"fixing", "count", "hook_offset"},
    "Mat": {"window_width", "window_height", "overlap", "borders", "bevel"},
    "MatLayer": {"board", "colour", "reveal"},
    "Wall": {"name", "width", "height", "eye_line", "edge_margin", "viewing_distance", "surface", "no_holes",
             "stud_first", "stud_spacing", "left_end", "right_end", "skirting", "paint"},
    "Datum": {"height", "line", "side", "plumb"},
    "Obstacle": {"kind", "name", "left", "bottom", "width", "height", "depth", "margin"},
    "Arrangement": {"name", "gap", "note"},
    "Project": {"title", "units", "fraction", "currency", "region", "quake"},
}  # fmt: skip


@pytest.mark.parametrize(
    "record",
    [Frame, Piece, Picture, Hanger, HardwareChoice, Mat, MatLayer, Wall, Datum, Obstacle, Arrangement, Project],
)
def test_no_field_of_a_record_is_forgotten(record: Any) -> None:
    fields = {field.name for field in msgspec.structs.fields(record)}
    assert fields == EDITED[record.__name__] | ELSEWHERE[record.__name__]


def test_the_three_thicknesses(full: MainWindow) -> None:
    full.selection.set(["p1"])
    full.card.open_section("frame")
    QApplication.processEvents()
    card = full.card.card
    assert card is not None
    fields = [one for one in card.findChildren(EntryField) if one.accessibleName() == "Its thickness"]
    for field, name, text in zip(fields, ("moulding", "glazing", "backing"), ("20", "2", "3"), strict=True):
        field.lineEdit().setText(text)
        field.lineEdit().textEdited.emit(text)
        field.commit()
        assert getattr(piece(full.opened.project).frame, f"{name}_thickness") == mm(f"{text} mm")
