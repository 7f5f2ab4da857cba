"""Everything the window can do, in one table: words, shortcut, menu, drawing, one sentence of help.

Menus, toolbar and manual are made from it, so that none of them can say something else.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import NamedTuple

from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QWidget

from composer.texts import N_, say

Standard = QKeySequence.StandardKey

FILE, EDIT, VIEW, PIECE, WALL, ARRANGEMENT, PAPER, HELP = (
    N_("File"),
    N_("Edit"),
    N_("View"),
    N_("Piece"),
    N_("Wall"),
    N_("Arrangement"),
    N_("Paper"),
    N_("Help"),
)
MENUS = (FILE, EDIT, VIEW, PIECE, WALL, ARRANGEMENT, PAPER, HELP)

ALWAYS, ANY, ONE, SEVERAL, HUNG, UNDO, REDO, DIRTY, TWO, THING, WALLS, PICTURED, ARRANGEMENTS = (
    "always", "any", "one", "several", "hung", "undo", "redo", "dirty", "two", "thing", "walls", "pictured",
    "arrangements",
)  # fmt: skip
"""When an action can be used: always; with pieces selected (any, exactly one, two or more, hung ones, exactly
two); with something to undo or redo; with something to save; with a piece or an obstacle selected; with more
than one wall; with one piece selected that shows a picture; with more than one arrangement."""


class Row(NamedTuple):
    """One action. ``name`` is also the name of the method that does it; a menu of "" has a line above it."""

    name: str
    text: str
    menu: str
    help: str
    shortcut: str | QKeySequence.StandardKey = ""
    icon: str = ""
    rule: str = ALWAYS
    line_above: bool = False
    submenu: str = ""


TABLE: tuple[Row, ...] = (
    Row("new", N_("New"), FILE, N_("Starts a project with one bare wall."), Standard.New),
    Row("open", N_("Open…"), FILE, N_("Opens a project."), Standard.Open, "open"),
    Row("save", N_("Save"), FILE, N_("Writes the project to its file; the one before stays as a .bak beside it."), Standard.Save, "save"),
    Row("save_as", N_("Save As…"), FILE, N_("Writes the project to another file and goes on with that."), Standard.SaveAs),
    Row("import_table", N_("Import Table…"), FILE, N_("Adds the pieces of a table (CSV)."), line_above=True),
    Row("add_pictures", N_("Add Pictures…"), FILE, N_("Links picture files; with pieces selected, shows them there.")),
    Row("find_pictures", N_("Find Moved Pictures…"), FILE, N_("Looks below a folder for pictures that are no longer where the project says, by their content.")),
    Row("export_table", N_("Export Table…"), FILE, N_("Writes all pieces to a table (CSV).")),
    Row("save_packed", N_("Save Packed Copy…"), FILE, N_("Writes the project and its pictures into one archive, which opens anywhere."), line_above=True),
    Row("open_packed", N_("Open Packed Copy…"), FILE, N_("Takes a packed copy out into a new folder and opens it.")),
    Row("close", N_("Quit"), FILE, N_("Leaves the program; it asks first when something is not saved."), "Ctrl+Q", line_above=True),
    Row("undo", N_("Undo"), EDIT, N_("Takes the last change back."), Standard.Undo, "undo", UNDO),
    Row("redo", N_("Redo"), EDIT, N_("Makes the change again that was taken back."), Standard.Redo, "redo", REDO),
    Row("history", N_("History…"), EDIT, N_("Lists every step by its sentence, and goes back to the one that is chosen.")),
    Row("select_all", N_("Select All"), EDIT, N_("Selects all pieces of this wall and its floor."), Standard.SelectAll, line_above=True),
    Row("select_none", N_("Select None"), EDIT, N_("Lets go of the selection."), "Ctrl+Shift+A"),
    Row("paste_rows", N_("Paste Rows…"), EDIT, N_("Shows how copied rows of a table are understood, and adds their pieces."), Standard.Paste),
    Row("duplicate", N_("Duplicate"), EDIT, N_("Lays a copy of each selected piece on the floor; a copy of an obstacle stands beside it."), "Ctrl+D", rule=THING, line_above=True),
    Row("delete", N_("Delete"), EDIT, N_("Removes the selected pieces and obstacles from the project."), "Del", rule=THING),
    Row("zoom_in", N_("Zoom In"), VIEW, N_("Shows the room larger."), Standard.ZoomIn),
    Row("zoom_out", N_("Zoom Out"), VIEW, N_("Shows the room smaller."), Standard.ZoomOut),
    Row("zoom_fit", N_("Zoom to Fit"), VIEW, N_("Shows the whole wall."), "Ctrl+0"),
    Row("zoom_life", N_("Life Size"), VIEW, N_("Shows the room at 1 : 1, by what the system says of this screen."), "Ctrl+1"),
    Row("toggle_findings", N_("Findings"), VIEW, N_("Opens or folds what is wrong or left to do."), "F8", line_above=True),
    Row("show_card", N_("Card"), VIEW, N_("Goes to the card; in a narrow window it opens over the room, and closes again."), "F4"),
    Row("larger_text", N_("Larger Text"), VIEW, N_("Makes all text larger, up to twice its size."), "Ctrl+Alt++", line_above=True),
    Row("smaller_text", N_("Smaller Text"), VIEW, N_("Makes all text smaller again."), "Ctrl+Alt+-"),
    Row("look_system", N_("As the System"), VIEW, N_("Light or dark as the system says."), line_above=True, submenu=N_("Light and Dark")),
    Row("look_light", N_("Light"), VIEW, N_("Light, whatever the system says."), submenu=N_("Light and Dark")),
    Row("look_dark", N_("Dark"), VIEW, N_("Dark, whatever the system says."), submenu=N_("Light and Dark")),
    Row("add_piece", N_("Add pieces"), PIECE, N_("Adds a frame to the floor."), "Ctrl+Shift+N", "add"),
    Row("pick_up", N_("Pick Up"), PIECE, N_("Takes the selected pieces in hand: arrows or a click move them, Enter puts them down."), icon="up", rule=ANY, line_above=True),
    Row("take_down", N_("Take Down"), PIECE, N_("Lays the selected pieces on the floor."), "Ctrl+Down", "floor", HUNG),
    Row("turn", N_("Turn a Quarter"), PIECE, N_("Turns the selected pieces a quarter."), "Ctrl+T", rule=HUNG),
    Row("lock", N_("Lock or Unlock"), PIECE, N_("Keeps the selected pieces where they are, or lets them move again."), "Ctrl+L", "lock", HUNG),
    Row("crop", N_("Place Picture"), PIECE, N_("Moves, zooms, turns and tilts the picture in its frame, on the wall; again ends it."), "Ctrl+Shift+C", rule=PICTURED),
    Row("patch", N_("See a Patch…"), PIECE, N_("Shows a part of the print as large on the screen as on paper, no sharper than it will be."), rule=PICTURED),
    Row("swap", N_("Swap"), PIECE, N_("Lets two pieces change places."), "Ctrl+Shift+X", rule=TWO),
    Row("swap_picture", N_("Swap the Picture"), PIECE, N_("Shows another picture in the same frame: a new print to order and trim, nothing else."), "Ctrl+I", rule=ONE),
    Row("free_places", N_("Free Places"), PIECE, N_("Outlines where the selected frame would keep the gap and line up; a click hangs it there."), "Ctrl+Shift+P", rule=ONE, line_above=True),
    Row("record_up", N_("Note as Up"), PIECE, N_("Notes that the selected pieces hang now, with every hole."), "Ctrl+U", rule=HUNG),
    Row("record_down", N_("Note as Down"), PIECE, N_("Notes that the selected pieces have come down; their holes stay noted."), "Ctrl+Shift+U", rule=ANY),
    Row("align_left", N_("Left Edges"), PIECE, N_("Lines up the left edges."), rule=SEVERAL, line_above=True, submenu=N_("Align")),
    Row("align_centre", N_("Centres, Upright"), PIECE, N_("Lines the middles up under each other."), rule=SEVERAL, submenu=N_("Align")),
    Row("align_right", N_("Right Edges"), PIECE, N_("Lines up the right edges."), rule=SEVERAL, submenu=N_("Align")),
    Row("align_top", N_("Top Edges"), PIECE, N_("Lines up the top edges."), rule=SEVERAL, submenu=N_("Align")),
    Row("align_middle", N_("Centres, Level"), PIECE, N_("Lines the middles up at one height."), rule=SEVERAL, submenu=N_("Align")),
    Row("align_bottom", N_("Bottom Edges"), PIECE, N_("Lines up the bottom edges."), rule=SEVERAL, submenu=N_("Align")),
    Row("space_across", N_("Across, Equal Gaps"), PIECE, N_("Makes the gaps across equal; the outer pieces stay."), rule=SEVERAL, submenu=N_("Space Out")),
    Row("space_up", N_("Up, Equal Gaps"), PIECE, N_("Makes the gaps above each other equal; the outer pieces stay."), rule=SEVERAL, submenu=N_("Space Out")),
    Row("gap_across", N_("Across, the Gap Wanted"), PIECE, N_("Sets the pieces one gap apart across; the first stays."), rule=SEVERAL, submenu=N_("Space Out")),
    Row("gap_up", N_("Up, the Gap Wanted"), PIECE, N_("Sets the pieces one gap apart above each other; the lowest stays."), rule=SEVERAL, submenu=N_("Space Out")),
    Row("add_wall", N_("Add Wall"), WALL, N_("Adds a wall as large as this one and shows it.")),
    Row("delete_wall", N_("Delete This Wall"), WALL, N_("Removes the wall shown; its pieces go to the floor."), rule=WALLS),
    Row("next_wall", N_("Next Wall"), WALL, N_("Shows the next wall."), "Ctrl+PgDown", rule=WALLS, line_above=True),
    Row("previous_wall", N_("Previous Wall"), WALL, N_("Shows the wall before."), "Ctrl+PgUp", rule=WALLS),
    Row("hanging_day", N_("Hanging day"), WALL, N_("Fills the screen with one piece after the other: numbers to read from a ladder, strips in passes with their clocks."), "Ctrl+Shift+H", "day", line_above=True),
    Row("frames_that_fit", N_("Which Frames Fit Here"), WALL, N_("Asks for a bare place of the wall and lists the frames of the floor that fit there; choosing one hangs it."), "Ctrl+Shift+F"),
    Row("arrange", N_("Arrange"), ARRANGEMENT, N_("Shows sketches of this wall to choose from, to scale; pointing at one previews it, a click hangs it so."), "Ctrl+R", "arrange"),
    Row("true_up", N_("True up"), ARRANGEMENT, N_("Shows with arrows what would move to make gaps exact and edges line up; nothing moves before it is accepted."), "Ctrl+E", "trueup"),
    Row("true_up_piece", N_("True Up These Only"), ARRANGEMENT, N_("Trues up the selected pieces alone, at once; all others stay."), "Ctrl+Shift+E", rule=HUNG),
    Row("new_arrangement", N_("New Arrangement"), ARRANGEMENT, N_("Begins an empty arrangement, every piece on the floor; the others stay as they are."), "Ctrl+Alt+N", line_above=True),
    Row("duplicate_arrangement", N_("Duplicate Arrangement"), ARRANGEMENT, N_("Makes a copy of the arrangement shown and shows the copy."), "Ctrl+Shift+D"),
    Row("rename_arrangement", N_("Rename Arrangement…"), ARRANGEMENT, N_("Gives the arrangement shown another name."), "F2"),
    Row("delete_arrangement", N_("Delete Arrangement"), ARRANGEMENT, N_("Removes the arrangement shown and shows the one before."), rule=ARRANGEMENTS),
    Row("compare_arrangements", N_("Compare Arrangements…"), ARRANGEMENT, N_("Shows two arrangements of this wall side by side, to scale, with what may be said of each."), "F6"),
    Row("next_change", N_("Next Change…"), ARRANGEMENT, N_("Notes what is up with its holes, and plans the way from there to another arrangement or to the empty wall."), "F7", line_above=True),
    Row("costs", N_("Costs…"), ARRANGEMENT, N_("Shows what everything costs against the budget, line by line, and ways to pay less."), "F9"),
    Row("templates", N_("Templates"), PAPER, N_("Shows and prints the templates at full size, with every hanging point."), Standard.Print, "paper"),
    Row("hanging_list", N_("Hanging List"), PAPER, N_("Shows and prints the list for hanging day: heights, distances, hooks, tools.")),
    Row("measuring_sheet", N_("Measuring Sheet"), PAPER, N_("Shows and prints a sheet to carry to the frames: what is still missing, and how to measure it.")),
    Row("cut_outs", N_("Cut-outs from Any Paper"), PAPER, N_("Shows and prints the sizes to cut from newspaper, and where to put them up.")),
    Row("wall_sheet", N_("Wall Sheet, Full Size"), PAPER, N_("Shows and prints the whole arrangement at full size.")),
    Row("elevation", N_("Elevation"), PAPER, N_("Shows and prints the wall to scale on one sheet.")),
    Row("print_order", N_("Print Order and Trimming"), PAPER, N_("Shows and prints the prints to order, and how to trim them."), line_above=True),
    Row("mat_list", N_("Cutting List for Mats"), PAPER, N_("Shows and prints how boards and windows of the mats are cut.")),
    Row("shopping_list", N_("Shopping List"), PAPER, N_("Shows and prints what is to be bought, by shop.")),
    Row("scale_check", N_("Scale Check"), PAPER, N_("Shows and prints the sheet that tells whether a printer prints true."), line_above=True),
    Row("print_files", N_("Print Files…"), PAPER, N_("Writes for each piece with a picture the file to send to a print lab, at exactly the size to order.")),
    Row("manual", N_("Manual"), HELP, N_("Explains measuring, paper and hanging day, and lists every action."), Standard.HelpContents),
    Row("about", N_("About Wallwright"), HELP, N_("Says which version this is, and whose work it stands on.")),
)  # fmt: skip

TOOLBAR = (
    "undo",
    "redo",
    "",
    "add_piece",
    "arrange",
    "true_up",
    "",
    "templates",
    "hanging_day",
)
"""Names in order; an empty one is a line between groups."""


def make_actions(parent: QWidget, do: Callable[[str], Callable[[], object]]) -> dict[str, QAction]:
    """An action for every row; ``do`` gives the method by its name."""
    made: dict[str, QAction] = {}
    for row in TABLE:
        action = QAction(say(row.text), parent)
        action.setObjectName(row.name)
        action.setStatusTip(say(row.help))
        action.setToolTip(say(row.help))
        if row.shortcut != "":
            if isinstance(row.shortcut, QKeySequence.StandardKey):
                action.setShortcuts(QKeySequence.keyBindings(row.shortcut))
            else:
                action.setShortcut(QKeySequence(row.shortcut))
        if row.name == "delete":
            # Not the standard key: under X11 that is Ctrl+D as well. Small keyboards have Backspace alone.
            action.setShortcuts([QKeySequence(row.shortcut), QKeySequence("Backspace")])
        if row.name == "close":
            action.setMenuRole(QAction.MenuRole.QuitRole)
        elif row.name == "about":
            action.setMenuRole(QAction.MenuRole.AboutRole)
        action.triggered.connect(do(row.name))
        made[row.name] = action
    return made
