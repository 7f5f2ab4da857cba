"""Keys of ``set`` about a piece that the inventory table has no column for."""

import re
from collections.abc import Callable, Mapping

from msgspec.structs import replace

from composer.commandline import typed
from composer.commandline.answers import Refused
from composer.commandline.near import suggestion
from composer.commandline.print_keys import PRINT_NAMES, PRINT_SETTERS
from composer.editing.piece_edits import choose_fixing, replace_piece
from composer.model import Key, Project
from composer.projectfile import inventory
from composer.projectfile.cells import plain_text
from composer.texts import say

Setter = Callable[[Project, Key, str], Project]


def _set_fixing(project: Project, piece: Key, fixing: str) -> Project:
    known = inventory.catalogue_for(project).fixings
    return choose_fixing(project, piece, _known(fixing, known, "fixing")).run(project)


def _known(typed_id: str, ids: Mapping[str, object], what: str) -> str:
    """The catalogue's own spelling of an id; empty stays empty."""
    chosen = next((name for name in ids if name.casefold() == typed_id.casefold()), typed_id)
    if chosen and chosen not in ids:
        hint = suggestion(typed_id, ids)
        if what == "paper":
            raise Refused(say("“{found}” is not a paper of the catalogue. {hint}", found=typed_id[:40], hint=hint))
        raise Refused(say("“{found}” is not a fixing of the catalogue. {hint}", found=typed_id[:40], hint=hint))
    return chosen


def _set_paper(project: Project, key: Key, paper: str) -> Project:
    piece = project.piece_by_key[key]
    if piece.current_use is None:
        raise Refused(say("piece {number} shows no picture yet; set its picture first.", number=piece.number))
    chosen = _known(paper, inventory.catalogue_for(project).papers, "paper") or None
    uses = list(piece.uses)
    use = uses[piece.current_use]
    uses[piece.current_use] = replace(use, print=replace(use.print, paper=chosen))
    return replace_piece(project, replace(piece, uses=tuple(uses)))


def _set_backing_thickness(project: Project, key: Key, text: str) -> Project:
    piece = project.piece_by_key[key]
    thickness = typed.bare_length(text, project.units) if text else None
    return replace_piece(project, replace(piece, frame=replace(piece.frame, backing_thickness=thickness)))


def _set_profile_area(project: Project, key: Key, text: str) -> Project:
    piece = project.piece_by_key[key]
    found = re.fullmatch(r"(\d+(?:\.\d+)?)\s*(?:mm2|mm²)", plain_text(text))
    if text and found is None:
        raise Refused(say("“{found}” is not an area such as 110 mm2.", found=text[:40]))
    area = None if found is None else float(found[1])
    return replace_piece(project, replace(piece, frame=replace(piece.frame, profile_area_mm2=area)))


def _set_wire_class(project: Project, key: Key, wire: str) -> Project:
    piece, known = project.piece_by_key[key], inventory.catalogue_for(project).wires
    chosen = next((name for name in known if name.casefold() == wire.casefold()), None)
    if wire and chosen is None:
        hint = suggestion(wire, known)
        raise Refused(say("“{found}” is not a wire of the catalogue. {hint}", found=wire[:40], hint=hint))
    return replace_piece(project, replace(piece, hanger=replace(piece.hanger, wire_class=chosen)))


def _set_condition(project: Project, key: Key, text: str) -> Project:
    piece = project.piece_by_key[key]
    return replace_piece(project, replace(piece, frame=replace(piece.frame, condition=plain_text(text))))


def _set_diagonals(project: Project, key: Key, text: str) -> Project:
    """Both diagonals, with a comma and a space between, or none."""
    piece = project.piece_by_key[key]
    parts = [part.strip() for part in re.split(r"[;x×]|,\s", text) if part.strip()]
    if len(parts) not in (0, 2):
        raise Refused(say("two diagonals are expected, such as 640 mm x 642 mm, not “{found}”.", found=text[:40]))
    rising, falling = (typed.bare_length(part, project.units) for part in parts) if parts else (None, None)
    frame = replace(piece.frame, diagonal_rising=rising, diagonal_falling=falling)
    return replace_piece(project, replace(piece, frame=frame))


SETTERS: dict[str, Setter] = {
    "fixing": _set_fixing,
    "paper": _set_paper,
    "backingthickness": _set_backing_thickness,
    "profilearea": _set_profile_area,
    "wireclass": _set_wire_class,
    "condition": _set_condition,
    "diagonals": _set_diagonals,
    **PRINT_SETTERS,
}
"""By the folded name of the key's last part."""

NAMES = (
    *("fixing", "paper", "backing-thickness", "profile-area", "wire-class", "condition", "diagonals"),
    *PRINT_NAMES,
)
