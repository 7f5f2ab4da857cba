"""What a wall costs: each need with the packs that cover it, to pay, used up and left over."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction

from composer.catalogue import catalogue as catalogues
from composer.catalogue.catalogue import Catalogue
from composer.costing.items import SHOP_OF, Group, PriceBook, Shop, item_name, names_of
from composer.costing.need import Need
from composer.costing.needs import needs_of
from composer.costing.packs import NOTHING, Bought, Offer, Purchase, cents, cheapest
from composer.model import Arrangement, Project


@dataclass(frozen=True, slots=True)
class Line:
    """One need and what covers it.

    Attributes:
        need: what is needed, how many, for which pieces.
        name: what it is called.
        purchase: packs to buy and what is taken from the drawer.
        in_drawer: how many were in the drawer before.
    """

    need: Need
    name: str
    purchase: Purchase
    in_drawer: int = 0

    @property
    def group(self) -> Group:
        """What kind of thing it is."""
        return self.need.group

    @property
    def shop(self) -> Shop:
        """Where it is bought."""
        return SHOP_OF[self.need.group]

    @property
    def cost(self) -> Decimal:
        """To pay: packs × each."""
        return self.purchase.cost

    @property
    def used(self) -> Fraction:
        """Money's worth used up; of a board the share that is cut from it."""
        if self.need.worth is not None:
            return Fraction(self.cost) * self.need.worth
        return self.purchase.used

    @property
    def left_worth(self) -> Fraction:
        """Money's worth left over."""
        return Fraction(self.cost) - self.used

    @property
    def left_over(self) -> int:
        """How many will be at home afterwards: left over of what was bought, and still in the drawer."""
        return self.purchase.left_over + self.in_drawer - self.purchase.from_drawer


@dataclass(frozen=True, slots=True)
class Costs:
    """All that is bought for a wall.

    Attributes:
        currency: ISO 4217 code of every amount.
        lines: needs that have a price or are covered by the drawer, shop by shop.
        unpriced: needs nobody knows the price of; they are not in any sum.
        handy: useful things without a price that are usually at home.
        budget: what may be spent, None = not decided.
        unused_prices: items of the price list nothing is needed of.
    """

    currency: str
    lines: tuple[Line, ...]
    unpriced: tuple[Need, ...] = ()
    handy: tuple[Need, ...] = ()
    budget: Decimal | None = None
    unused_prices: tuple[str, ...] = ()

    @property
    def total(self) -> Decimal:
        """To pay in all, to the cent."""
        return cents(sum((line.cost for line in self.lines), NOTHING))

    @property
    def prices_lacking(self) -> int:
        """How many prices nobody knows: of frames each has its own, of everything else one is enough."""
        return sum(need.count if need.group == "frame" else 1 for need in self.unpriced)

    @property
    def used(self) -> Decimal:
        """Money's worth used up in all, rounded once, to the cent."""
        return cents(sum((line.used for line in self.lines), Fraction(0)))

    @property
    def left_worth(self) -> Decimal:
        """Money's worth left over: what is paid and not used up."""
        return self.total - self.used

    @property
    def to_spare(self) -> Decimal | None:
        """Budget less total; negative where it is too dear, None without a budget."""
        return None if self.budget is None else self.budget - self.total

    def of_shop(self, shop: Shop) -> Decimal:
        """To pay in one kind of shop."""
        return cents(sum((line.cost for line in self.lines if line.shop == shop), NOTHING))

    def of_group(self, group: Group) -> Decimal:
        """To pay for one kind of thing."""
        return cents(sum((line.cost for line in self.lines if line.group == group), NOTHING))

    def dearest(self, count: int = 3) -> tuple[Line, ...]:
        """The lines that cost most, dearest first."""
        paid = [line for line in self.lines if line.cost > 0]
        return tuple(sorted(paid, key=lambda line: -line.cost)[:count])

    def of_piece(self, number: int) -> Decimal | None:
        """Money's worth one piece uses up, to the cent; None where nothing about it has a price."""
        found: Fraction | None = None
        for line in self.lines:
            weight = sum(share for _, share in line.need.shares)
            own = sum(share for piece, share in line.need.shares if piece == number)
            if own:
                found = (found or Fraction(0)) + line.used * own / weight
        return None if found is None else cents(found)


def costs_of(
    project: Project,
    arrangement: Arrangement | None = None,
    *,
    only: Collection[int] | None = None,
    template_sheets: int | None = None,
) -> Costs:
    """What a project costs; see :func:`composer.costing.needs.needs_of` for the arguments."""
    needs = needs_of(project, arrangement, only=only, template_sheets=template_sheets)
    return costs_for(project, needs)


def costs_for(project: Project, needs: Iterable[Need]) -> Costs:
    """What these needs cost with the project's prices and drawer."""
    known, book = catalogues.of(project.catalogue), PriceBook(project.money)
    lines: list[Line] = []
    unpriced: list[Need] = []
    handy: list[Need] = []
    names: list[str] = []
    drawer = book.drawer()
    for need in needs:
        called = need.also or names_of(need.group, need.item, known)
        names += called
        offers = (Offer(need.each),) if need.each is not None else book.offers(called)
        left = drawer.left(called) if need.each is None else 0
        covered = min(need.count, left)
        if not offers and covered < need.count:
            if need.group != "glazing":  # a frame without a price for its glazing brings it along
                (handy if need.handy else unpriced).append(replace(need, at_home=covered))
            continue
        drawer.take(called, covered)
        lines.append(_line(need, offers, left, known))
    order = list(SHOP_OF)
    lines.sort(key=lambda line: order.index(line.group))
    return Costs(
        project.currency,
        tuple(lines),
        tuple(unpriced),
        tuple(handy),
        project.money.budget,
        book.unused(names),
    )


def _line(need: Need, offers: tuple[Offer, ...], in_drawer: int, known: Catalogue) -> Line:
    purchase = cheapest(need.count, offers, in_drawer)
    return Line(need, need.label or item_name(need.group, need.item, known), purchase, in_drawer)


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the report: one pack size of one line. ``cost`` is ``packs`` × ``each``."""

    line: Line
    each: Decimal
    pack: int
    packs: int
    used: Decimal
    left_over: int
    cost: Decimal


def rows_of(costs: Costs) -> tuple[Row, ...]:
    """The lines as the report has them: a line of mixed packs is a row for each pack size.

    What is left over stands with the smallest pack, in which it lies.
    """
    return tuple(row for line in costs.lines for row in _rows(line))


def _rows(line: Line) -> Iterable[Row]:
    bought = line.purchase.bought
    if not bought:
        yield Row(line, NOTHING, 1, 0, cents(NOTHING), line.left_over, cents(NOTHING))
        return
    for place, one in enumerate(bought):
        last = place == len(bought) - 1
        used = line.used if len(bought) == 1 else _used(one, line.purchase.left_over if last else 0)
        yield Row(
            line, one.offer.each, one.offer.pack, one.packs, cents(used), line.left_over if last else 0, cents(one.cost)
        )


def _used(one: Bought, left_over: int) -> Fraction:
    return Fraction(one.cost) - Fraction(one.offer.each) * left_over / one.offer.pack
