"""Choices: one way in which a wall could be made differently, laid over the project.

A scenario is a handful of them; an alternative is one that costs less. A choice never changes the
stored project by itself: laying it over gives another project, whose costs are then compared.

| of | value |
|---|---|
| ``glazing`` | ``glass``, ``acrylic``, ``styrene``, ``none`` |
| ``mat`` | ``none``, or a board and its colour: ``mat-4-ply white`` |
| ``stock`` | id of a stock size; ``shared`` and an id: on one sheet of that size with others |
| ``frame-price`` | what the frame costs, e.g. ``12.00``; it is then still to be bought |
| ``fixing`` | id of a fixing; a piece on strips then hangs by a hanger of its own |
"""

from collections.abc import Iterable
from decimal import Decimal

import msgspec

from composer.catalogue import catalogue as catalogues
from composer.catalogue.catalogue import Catalogue
from composer.hanging.points import hang
from composer.model import (
    BadRecord,
    Choice,
    Extra,
    HardwareChoice,
    MatLayer,
    Piece,
    Project,
    Scenario,
)
from composer.model.frame import Glazing
from composer.texts import say
from composer.units import BadQuantity, Length, read_money

GLAZING: tuple[Glazing, ...] = ("glass", "acrylic", "styrene", "none")


class BadChoice(ValueError):
    """A choice that means nothing for this piece; the message is one finished sentence."""


def with_choices(project: Project, choices: Iterable[Choice]) -> Project:
    """The project as it would be with these choices.

    Raises:
        BadChoice: for a piece that is gone, or a value that is none.
    """
    for choice in choices:
        project = _with(project, choice)
    return project


def with_scenario(project: Project, scenario: Scenario) -> Project:
    """The project as a scenario has it.

    Raises:
        BadChoice: as above.
    """
    return with_choices(project, scenario.choices)


def _with(project: Project, choice: Choice) -> Project:
    piece = project.piece_by_key.get(choice.piece)
    if piece is None:
        raise BadChoice(say("The piece is no longer there."))
    try:
        made = _changed(project, piece, choice)
    except (BadRecord, BadQuantity) as refused:
        raise BadChoice(str(refused)) from None
    pieces = tuple(made if other.key == made.key else other for other in project.pieces)
    changed = msgspec.structs.replace(project, pieces=pieces)
    return _with_sheet(changed, piece, choice) if choice.of == "glazing" else changed


def _changed(project: Project, piece: Piece, choice: Choice) -> Piece:
    value = choice.value
    if choice.of == "glazing":
        if value not in GLAZING:
            raise _unknown(choice)
        return msgspec.structs.replace(
            piece, frame=msgspec.structs.replace(piece.frame, glazing=value, glazing_thickness=None)
        )
    if choice.of == "mat":
        return _with_mat(project, piece, choice)
    if choice.of == "stock":
        if piece.current_use is None:
            raise BadChoice(say("Piece {number} shows no picture yet: there is no print.", number=piece.number))
        use = piece.uses[piece.current_use]
        word, _, shared = value.partition(" ")
        if word == "shared" and shared:
            printed = msgspec.structs.replace(use.print, shared=shared)
        else:
            printed = msgspec.structs.replace(use.print, stock=value or None, price=None, shared=None)
        made = msgspec.structs.replace(use, print=printed)
        uses = tuple(made if other is use else other for other in piece.uses)
        return msgspec.structs.replace(piece, uses=uses)
    if choice.of == "frame-price":
        return msgspec.structs.replace(piece, price=read_money(value), owned=False)
    return on_fixing(project, piece, value)


def _with_mat(project: Project, piece: Piece, choice: Choice) -> Piece:
    if choice.value == "none":
        return msgspec.structs.replace(piece, mat=None)
    board, _, colour = choice.value.partition(" ")
    if piece.mat is None:
        raise BadChoice(say("Piece {number} has no mat.", number=piece.number))
    layer = piece.mat.layers[0] if piece.mat.layers else MatLayer(board=board)
    layer = msgspec.structs.replace(layer, board=board, colour=colour or None)
    return msgspec.structs.replace(piece, mat=msgspec.structs.replace(piece.mat, layers=(layer, *piece.mat.layers[1:])))


def _unknown(choice: Choice) -> BadChoice:
    return BadChoice(say("“{value}” is not known here.", value=choice.value[:40]))


def on_fixing(project: Project, piece: Piece, fixing: str) -> Piece:
    """The piece held by a fixing; one on strips takes the hanger whose measures it has, else a sawtooth.

    Raises:
        BadChoice: for a fixing the catalogue does not know.
    """
    known = catalogues.of(project.catalogue)
    if fixing not in known.fixings:
        raise BadChoice(say("“{fixing}” is not a fixing of the catalogue.", fixing=fixing[:40]))
    hanger = piece.hanger
    if hanger.kind == "strips":
        kind = "wire" if hanger.wire or hanger.ring_drop else "d-rings" if hanger.spacing else "sawtooth"
        hanger = msgspec.structs.replace(hanger, kind=kind)
        piece = msgspec.structs.replace(piece, hanger=hanger)
    placement = project.placement_by_piece.get(piece.key)
    points = hang(piece, turned=placement is not None and placement.turned, catalogue=known).points
    offset = known.fixings[fixing].offset_mm
    chosen = HardwareChoice(fixing=fixing, count=max(1, len(points)), hook_offset=Length.of_mm(offset))
    return msgspec.structs.replace(piece, hardware=chosen)


def _with_sheet(project: Project, before: Piece, choice: Choice) -> Project:
    """An owned frame's new glazing is a sheet to be bought; taken back, it is none."""
    known = catalogues.of(project.catalogue)
    extras = project.money.extras
    for kind in GLAZING[:3]:
        extras = tuple(extra for extra in extras if extra.what != sheet_name(before, kind, known))
    each = sheet_price(project, choice.value)
    if before.owned and choice.value in GLAZING[:3] and choice.value != before.frame.glazing and each is not None:
        extras = (*extras, Extra(what=sheet_name(before, choice.value, known), each=each))
    if extras == project.money.extras:
        return project
    return msgspec.structs.replace(project, money=msgspec.structs.replace(project.money, extras=extras))


def sheet_price(project: Project, glazing: str) -> Decimal | None:
    """What one sheet of a glazing costs, cut to size; None where nobody knows."""
    from composer.costing.items import PriceBook, names_of

    offers = PriceBook(project.money).offers(names_of("glazing", glazing, catalogues.of(project.catalogue)))
    return min((offer.each / offer.pack for offer in offers), default=None)


def sheet_name(piece: Piece, glazing: str, known: Catalogue) -> str:
    """What a new sheet for an owned frame is called among the extras."""
    from composer.catalogue.names import name_of

    material = known.glazing.get(glazing)
    name = glazing if material is None else name_of(material)
    size = piece.frame.glass_mm
    if size is None:
        return say("{glazing}, cut to size, piece {number}", glazing=name, number=piece.number)
    return say(
        "{glazing}, cut to {width} × {height} mm, piece {number}",
        glazing=name,
        width=f"{size[0]:g}",
        height=f"{size[1]:g}",
        number=piece.number,
    )
