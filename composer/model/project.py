"""The project: one immutable value that holds everything a person has measured and decided."""

from collections.abc import Iterable
from functools import cached_property
from typing import Literal, TypeVar

import msgspec

from composer.model.arrangement import Arrangement, Ground, Placement
from composer.model.notes import AsHung, CatalogueNotes, MoneyNotes, Override, PaperChoice
from composer.model.picture import Picture
from composer.model.piece import Piece
from composer.model.scalars import BadRecord, Key, Units, check_text
from composer.model.wall import Obstacle, Wall
from composer.texts import say
from composer.units import Length, LengthStyle

_Value = TypeVar("_Value", str, int)


class Project(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True, dict=True):
    """Walls, pieces and arrangements, with every reference resolved.

    Attributes:
        units: what bare numbers mean and how numbers are shown; stored values keep their own unit.
        fraction: inches are shown to 1/8, 1/16 or 1/32.
        currency: ISO 4217 code; there is no other currency in a project.
        next_key, next_number: the next never-used key number and piece number.
        current_arrangement: the arrangement shown and printed.
        region: whose rules for cables are shown.
        quake: show earthquake advice.
    """

    title: str
    units: Units = "metric"
    fraction: Literal[8, 16, 32] = 16
    currency: str = "EUR"
    next_key: int
    next_number: int = 1
    walls: tuple[Wall, ...]
    pieces: tuple[Piece, ...] = ()
    pictures: tuple[Picture, ...] = ()
    arrangements: tuple[Arrangement, ...]
    current_arrangement: Key
    catalogue: CatalogueNotes = CatalogueNotes()
    money: MoneyNotes = MoneyNotes()
    as_hung: AsHung = AsHung()
    overrides: tuple[Override, ...] = ()
    paper: PaperChoice = PaperChoice()
    region: Literal["none", "uk", "us"] = "none"
    quake: bool = False

    @property
    def length_style(self) -> LengthStyle:
        """How its lengths are shown: millimetres, or inches to its fraction."""
        return LengthStyle("mm") if self.units == "metric" else LengthStyle("in", self.fraction)

    @property
    def mass_unit(self) -> Literal["kg", "lb"]:
        """What its weights are shown in."""
        return "kg" if self.units == "metric" else "lb"

    def __post_init__(self) -> None:
        check_text(self.title)
        if len(self.currency) != 3 or not (
            self.currency.isascii() and self.currency.isalpha() and self.currency.isupper()
        ):
            raise BadRecord(
                say("A currency is three capital letters such as EUR, not “{currency}”.", currency=self.currency[:20])
            )
        if not self.walls or not self.arrangements:
            raise BadRecord(say("A project has at least one wall and one arrangement."))
        self._check_identities()
        self._check_references()

    def _check_identities(self) -> None:
        keys = [
            *(wall.key for wall in self.walls),
            *(obstacle.key for wall in self.walls for obstacle in wall.obstacles),
            *(piece.key for piece in self.pieces),
            *(picture.key for picture in self.pictures),
            *(arrangement.key for arrangement in self.arrangements),
        ]
        if len(set(keys)) != len(keys):
            raise BadRecord(say("The key “{key}” is used twice.", key=_first_repeated(keys)))
        highest = max(int(key[1:]) for key in keys)
        if highest >= self.next_key:
            raise BadRecord(
                say(
                    "The next key ({next_key}) must be above every used one ({highest}).",
                    next_key=self.next_key,
                    highest=highest,
                )
            )
        numbers = [piece.number for piece in self.pieces]
        if len(set(numbers)) != len(numbers):
            raise BadRecord(say("The piece number {number} is used twice.", number=_first_repeated(numbers)))
        if numbers and max(numbers) >= self.next_number:
            raise BadRecord(
                say(
                    "The next piece number ({next_number}) must be above every used one ({highest}).",
                    next_number=self.next_number,
                    highest=max(numbers),
                )
            )
        _refuse_repeated_name(self.walls)
        _refuse_repeated_name(self.arrangements)

    def _check_references(self) -> None:
        pieces, walls = self.piece_by_key, self.wall_by_key
        pictures = {picture.key for picture in self.pictures}
        for piece in self.pieces:
            for use in piece.uses:
                _expect(use.picture, pictures)
        for arrangement in self.arrangements:
            for placement in arrangement.placements:
                _expect(placement.piece, pieces)
                _expect(placement.wall, walls)
            for key in arrangement.floor_order:
                _expect(key, pieces)
            for relation in arrangement.relations:
                for key in (relation.piece,) if isinstance(relation, Ground) else (relation.first, relation.second):
                    _expect(key, pieces)
        _expect(self.current_arrangement, self.arrangement_by_key)
        for item in self.as_hung.items:
            _expect(item.piece, pieces)
            _expect(item.wall, walls)
        for hole in self.as_hung.holes:
            _expect(hole.wall, walls)
        for override in self.overrides:
            for key in override.pieces:
                _expect(key, pieces)

    @cached_property
    def piece_by_key(self) -> dict[Key, Piece]:
        """Every piece by its key."""
        return {piece.key: piece for piece in self.pieces}

    @cached_property
    def piece_by_number(self) -> dict[int, Piece]:
        """Every piece by its number."""
        return {piece.number: piece for piece in self.pieces}

    @cached_property
    def wall_by_key(self) -> dict[Key, Wall]:
        """Every wall by its key."""
        return {wall.key: wall for wall in self.walls}

    @cached_property
    def picture_by_key(self) -> dict[Key, Picture]:
        """Every picture by its key."""
        return {picture.key: picture for picture in self.pictures}

    @cached_property
    def obstacle_by_key(self) -> dict[Key, Obstacle]:
        """Every obstacle by its key, over all walls."""
        return {obstacle.key: obstacle for wall in self.walls for obstacle in wall.obstacles}

    @cached_property
    def arrangement_by_key(self) -> dict[Key, Arrangement]:
        """Every arrangement by its key."""
        return {arrangement.key: arrangement for arrangement in self.arrangements}

    @property
    def arrangement(self) -> Arrangement:
        """The current arrangement."""
        return self.arrangement_by_key[self.current_arrangement]

    @cached_property
    def placement_by_piece(self) -> dict[Key, Placement]:
        """The current arrangement's placements by piece; what is missing lies on the floor."""
        return {placement.piece: placement for placement in self.arrangement.placements}

    def hung_on(self, wall: Key, arrangement: Arrangement | None = None) -> list[tuple[Piece, Placement]]:
        """Pieces on a wall with their places, by number."""
        chosen = self.arrangement if arrangement is None else arrangement
        hung = [(self.piece_by_key[place.piece], place) for place in chosen.placements if place.wall == wall]
        return sorted(hung, key=lambda pair: pair[0].number)

    def on_floor(self, arrangement: Arrangement | None = None) -> list[Piece]:
        """Pieces on the floor, from left to right as the person laid them out."""
        chosen = self.arrangement if arrangement is None else arrangement
        hung = {placement.piece for placement in chosen.placements}
        order = {key: place for place, key in enumerate(chosen.floor_order)}
        lying = [piece for piece in self.pieces if piece.key not in hung]
        return sorted(lying, key=lambda piece: (order.get(piece.key, len(order)), piece.number))

    def up(self) -> frozenset[Key]:
        """Pieces recorded as hanging now, or whose strips are pressed on the wall already; not those whose strips
        only stick on their frames."""
        return frozenset(
            item.piece
            for item in self.as_hung.items
            if item.down is None and (item.strips is None or item.strips.reached != "stuck")
        )

    def eye_line(self, wall: Wall) -> Length:
        """The wall's eye line, or the usual one of the project's units."""
        return wall.eye_line or Length.from_text(USUAL_EYE_LINE[self.units])


USUAL_EYE_LINE: dict[Units, str] = {"metric": "1450 mm", "imperial": "57 in"}
"""Height of pictures' centres (common practice: 57 in at home; 1 450 mm in metric galleries)."""

USUAL_GAP: dict[Units, str] = {"metric": "50 mm", "imperial": "2 in"}
"""Distance between neighbouring frames (common practice: 2 to 3 in inside a group)."""

USUAL_LIP: dict[Units, str] = {"metric": "6 mm", "imperial": "1/4 in"}
"""Lip of a moulding nobody measured (common practice in framing: 1/4 in)."""

USUAL_ALLOWANCE: dict[Units, str] = {"metric": "3 mm", "imperial": "1/8 in"}
"""How much smaller than the rabbet the glass is, in all (framers' common practice: 1/8 in)."""

USUAL_UNIT: dict[Units, str] = {"metric": "cm", "imperial": "in"}
"""What a bare number means."""


def _expect(key: Key, known: Iterable[Key]) -> None:
    if key not in known:
        raise BadRecord(say("“{key}” is mentioned but not there.", key=key[:40]))


def _first_repeated(values: list[_Value]) -> _Value:
    seen: set[_Value] = set()
    for value in values:
        if value in seen:
            return value
        seen.add(value)
    raise AssertionError(values)


def _refuse_repeated_name(records: Iterable[Wall | Arrangement]) -> None:
    seen: set[str] = set()
    for record in records:
        folded = record.name.casefold()
        if folded in seen:
            raise BadRecord(say("The name “{name}” is used twice.", name=record.name))
        seen.add(folded)
