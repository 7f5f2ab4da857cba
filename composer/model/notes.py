"""What the person noted beside the wall itself: packet figures, money, what hangs, overrides, paper."""

from typing import Literal

import msgspec

from composer.model.hanger import StripSize
from composer.model.scalars import (
    BadRecord,
    Instant,
    Key,
    Money,
    Pos,
    check_instant,
    check_key,
    check_length,
    check_money,
    check_position,
    check_text,
)
from composer.texts import N_, say
from composer.units import Length


class CatalogueChange(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """A packet's figure typed over the catalogue's default: entry id, field name, value."""

    entry: str
    field: str
    value: str | float


class CatalogueEntry(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """A class of thing with the values used, so that an updated program never changes an old plan."""

    id: str
    kind: str
    name: str
    fields: tuple[tuple[str, str | float], ...] = ()
    source: str = ""

    def __post_init__(self) -> None:
        for text in (self.id, self.kind, self.name):
            check_text(text)
        check_text(self.source, most=1000)


class CatalogueNotes(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """What this project changes, adds and pins of the catalogue."""

    changed: tuple[CatalogueChange, ...] = ()
    own: tuple[CatalogueEntry, ...] = ()
    pinned: tuple[CatalogueEntry, ...] = ()


class Price(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """What ``pack`` pieces of an item cost together."""

    item: str
    each: Money
    pack: int = 1

    def __post_init__(self) -> None:
        check_text(self.item)
        check_money(self.each)
        if self.pack < 1:
            raise BadRecord(say("A pack holds at least one, not {count}.", count=self.pack))


class InDrawer(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """How many of an item are already at home."""

    item: str
    count: int

    def __post_init__(self) -> None:
        check_text(self.item)
        if self.count < 0:
            raise BadRecord(say("There cannot be {count} in the drawer.", count=self.count))


class Extra(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """Something else to buy, in the person's own words."""

    what: str
    each: Money
    count: int = 1

    def __post_init__(self) -> None:
        check_text(self.what)
        check_money(self.each)


class Paid(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """What was really paid for an item."""

    item: str
    amount: Money
    when: Instant | None = None

    def __post_init__(self) -> None:
        check_text(self.item)
        check_money(self.amount)
        if self.when is not None:
            check_instant(self.when)


class Choice(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """One difference of a scenario: another glazing, mat, stock size, frame price or fixing for a piece."""

    of: Literal["glazing", "mat", "stock", "frame-price", "fixing"]
    piece: Key
    value: str

    def __post_init__(self) -> None:
        check_key(self.piece, "p")
        check_text(self.value)


class Scenario(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """A way to spend the money, as its differences from the project."""

    name: str
    choices: tuple[Choice, ...] = ()

    def __post_init__(self) -> None:
        check_text(self.name)


class MoneyNotes(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """Budget, prices, what is at home, what was paid."""

    budget: Money | None = None
    prices: tuple[Price, ...] = ()
    in_drawer: tuple[InDrawer, ...] = ()
    extras: tuple[Extra, ...] = ()
    paid: tuple[Paid, ...] = ()
    scenarios: tuple[Scenario, ...] = ()

    def __post_init__(self) -> None:
        if self.budget is not None:
            check_money(self.budget)


class HungStrips(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """Strips on a frame and on the wall: how many pairs, and when their wall halves were pressed.

    ``reached`` is the pass of hanging day the piece has come to.
    """

    size: StripSize
    pairs: int
    reached: Literal["stuck", "pressed", "hung"] = "stuck"
    pressed: Instant | None = None

    def __post_init__(self) -> None:
        if self.pairs < 1:
            raise BadRecord(say("A piece on strips has at least one pair."))
        if self.pressed is not None:
            check_instant(self.pressed)


class HungPiece(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """A piece that hangs, or hung until ``down``: where its points really are, as measured on the wall."""

    piece: Key
    wall: Key
    when: Instant
    points: tuple[tuple[Pos, Pos], ...] = ()
    strips: HungStrips | None = None
    down: Instant | None = None

    def __post_init__(self) -> None:
        check_key(self.piece, "p")
        check_key(self.wall, "w")
        check_instant(self.when)
        if self.down is not None:
            check_instant(self.down)
        for x, y in self.points:
            check_position(x)
            check_position(y)


class HoleRecord(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """A hole in the wall; it outlives the piece that hung on it."""

    wall: Key
    x: Pos
    y: Pos
    state: Literal["in-use", "open", "filled"] = "in-use"
    piece: Key | None = None

    def __post_init__(self) -> None:
        check_key(self.wall, "w")
        check_position(self.x)
        check_position(self.y)


class AsHung(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """What is up on the walls, as it was hung."""

    items: tuple[HungPiece, ...] = ()
    holes: tuple[HoleRecord, ...] = ()


class Override(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """A stop the person goes on against, with the reason; it is printed on the paper."""

    code: str
    pieces: tuple[Key, ...]
    reason: str
    when: Instant

    def __post_init__(self) -> None:
        check_text(self.code)
        check_text(self.reason)
        check_instant(self.when)
        if len(self.reason.strip()) < 3:
            raise BadRecord(say("A reason needs at least three letters, not “{reason}”.", reason=self.reason))


class PaperChoice(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """Sheet, margins (left, bottom, right, top), overlap and economy last chosen for this project's paper."""

    sheet: str | None = None
    margins: tuple[Length, Length, Length, Length] | None = None
    overlap: Length | None = None
    economy: Literal["full", "outline", "corners", "points"] | None = None

    def __post_init__(self) -> None:
        check_text(self.sheet or "")
        for margin in self.margins or ():
            check_length(margin, N_("margin"), zero=True)
        check_length(self.overlap, N_("overlap"), zero=True)
