"""Money: prices, the drawer, extras, what was really paid, scenarios, and taking a cheaper way."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from typing import Any

import msgspec

from composer.costing.alternatives import Alternative, alternative_words
from composer.costing.choices import BadChoice, with_choices
from composer.costing.items import item_key
from composer.editing.edits import Edit, EditRefused, MergeKey, tried
from composer.editing.relations import without_broken
from composer.model import (
    Choice,
    Extra,
    InDrawer,
    Instant,
    Money,
    MoneyNotes,
    Paid,
    Price,
    Project,
    Scenario,
)
from composer.texts import say


def _money_edit(text: str, change: Callable[[MoneyNotes], MoneyNotes], merge: MergeKey | None = None) -> Edit:
    def run(project: Project) -> Project:
        money = tried(lambda: change(project.money))
        return project if money == project.money else msgspec.structs.replace(project, money=money)

    return Edit(text, run, merge)


def _replaced(money: MoneyNotes, **fields: Any) -> MoneyNotes:
    return msgspec.structs.replace(money, **fields)


def set_price(item: str, offers: Iterable[Price], merge: MergeKey | None = None) -> Edit:
    """What an item is sold in, whichever way it was written before; no offers = nobody knows its price."""
    rows = tuple(offers)

    def change(money: MoneyNotes) -> MoneyNotes:
        kept = tuple(price for price in money.prices if item_key(price.item) != item_key(item))
        return _replaced(money, prices=(*kept, *rows))

    return _money_edit(say("Change the price of “{item}”", item=item), change, merge)


def set_in_drawer(item: str, count: int, merge: MergeKey | None = None) -> Edit:
    """How many of an item are at home, whichever way it was written before; 0 = none."""

    def change(money: MoneyNotes) -> MoneyNotes:
        kept = tuple(one for one in money.in_drawer if item_key(one.item) != item_key(item))
        added = (InDrawer(item=item, count=count),) if count else ()
        return _replaced(money, in_drawer=(*kept, *added))

    return _money_edit(say("Change what is in the drawer"), change, merge)


def set_extras(extras: Iterable[Extra], merge: MergeKey | None = None) -> Edit:
    """Everything else to buy, in the person's own words."""
    rows = tuple(extras)
    return _money_edit(say("Change the extras"), lambda money: _replaced(money, extras=rows), merge)


def record_paid(item: str, amount: Money | None, when: Instant | None = None, merge: MergeKey | None = None) -> Edit:
    """What was really paid for an item, read off the shopping list; None takes it back."""

    def change(money: MoneyNotes) -> MoneyNotes:
        kept = tuple(one for one in money.paid if one.item.casefold() != item.casefold())
        added = () if amount is None else (Paid(item=item, amount=amount, when=when),)
        return _replaced(money, paid=(*kept, *added))

    return _money_edit(say("Note what was paid for “{item}”", item=item), change, merge)


def record_paid_list(amounts: Mapping[str, Money], when: Instant | None = None) -> Edit:
    """What was really paid, by item, read back from a shopping list that was filled in; other items stay as noted."""

    def change(money: MoneyNotes) -> MoneyNotes:
        read = {item.casefold() for item in amounts}
        kept = tuple(one for one in money.paid if one.item.casefold() not in read)
        rows = tuple(Paid(item=item, amount=amount, when=when) for item, amount in amounts.items())
        return _replaced(money, paid=(*kept, *rows))

    return _money_edit(say("Note what was paid"), change)


def into_drawer(counts: Iterable[InDrawer]) -> Edit:
    """What is left over after the shopping goes into the drawer, beside what is there."""
    rows = tuple(counts)

    def change(money: MoneyNotes) -> MoneyNotes:
        here = {one.item.casefold(): one for one in money.in_drawer}
        for one in rows:
            before = here.get(one.item.casefold())
            total = one.count + (0 if before is None else before.count)
            here[one.item.casefold()] = InDrawer(item=one.item if before is None else before.item, count=total)
        return _replaced(money, in_drawer=tuple(one for one in here.values() if one.count))

    return _money_edit(say("Put what is left over into the drawer"), change)


def take_alternative(project: Project, alternative: Alternative) -> Edit:
    """A cheaper way, in one step.

    Raises (when run):
        EditRefused: where it means nothing any more.
    """
    return take_choices(alternative_words(alternative, project), alternative.choices)


def take_choices(text: str, choices: Iterable[Choice]) -> Edit:
    """Choices laid over the project for good."""
    meant = tuple(choices)

    def run(project: Project) -> Project:
        try:
            made = with_choices(project, meant)
        except BadChoice as refused:
            raise EditRefused(str(refused)) from None
        return project if made == project else without_broken(made)

    return Edit(text, run)


def take_scenario(project: Project, name: str) -> Edit:
    """A scenario becomes how it is."""
    return take_choices(say("Take the scenario “{name}”", name=name), _scenario(project, name).choices)


def _scenario(project: Project, name: str) -> Scenario:
    found = next((one for one in project.money.scenarios if one.name == name), None)
    if found is None:
        raise EditRefused(say("The scenario is no longer there."))
    return found


def keep_scenario(name: str, choices: Iterable[Choice]) -> Edit:
    """A scenario under a name; one of the same name is replaced."""
    made = Scenario(name=name, choices=tuple(choices))

    def change(money: MoneyNotes) -> MoneyNotes:
        kept = tuple(one for one in money.scenarios if one.name.casefold() != name.casefold())
        return _replaced(money, scenarios=(*kept, made))

    return _money_edit(say("Keep the scenario “{name}”", name=name), change)


def delete_scenario(name: str) -> Edit:
    """A scenario that is not wanted any more."""

    def change(money: MoneyNotes) -> MoneyNotes:
        return _replaced(money, scenarios=tuple(one for one in money.scenarios if one.name != name))

    return _money_edit(say("Delete the scenario “{name}”", name=name), change)
