"""The project itself and its arrangements."""

from __future__ import annotations

from typing import Any

import msgspec

from composer.editing.edits import Edit, EditRefused, MergeKey, tried
from composer.editing.placing import with_current
from composer.editing.relations import without_broken
from composer.model import Arrangement, InDrawer, Key, Money, Price, Project
from composer.texts import say
from composer.units import Length


def change_project_fields(text: str, merge: MergeKey | None = None, **fields: Any) -> Edit:
    """Some fields of the project, by their names in :class:`composer.model.Project`.

    Stored lengths keep the unit they were typed in when ``units`` changes.
    """

    def run(project: Project) -> Project:
        made = tried(lambda: msgspec.structs.replace(project, **fields))
        return project if made == project else made

    return Edit(text, run, merge)


def set_budget(budget: Money | None) -> Edit:
    """What may be spent in all; None = not decided."""

    def run(project: Project) -> Project:
        money = tried(lambda: msgspec.structs.replace(project.money, budget=budget))
        return project if money == project.money else msgspec.structs.replace(project, money=money)

    return Edit(say("Change the budget"), run)


def add_prices(prices: tuple[Price, ...], in_drawer: tuple[InDrawer, ...]) -> Edit:
    """Prices and what is already at home; an item's new rows take the place of all its old ones."""

    def run(project: Project) -> Project:
        renewed = {price.item.casefold() for price in prices}
        kept = tuple(price for price in project.money.prices if price.item.casefold() not in renewed)
        here = {one.item.casefold(): one for one in (*project.money.in_drawer, *in_drawer)}
        money = msgspec.structs.replace(
            project.money, prices=(*kept, *prices), in_drawer=tuple(one for one in here.values() if one.count)
        )
        return project if money == project.money else msgspec.structs.replace(project, money=money)

    return Edit(say("Add prices"), run)


def set_gap(gap: Length, merge: MergeKey | None = None) -> Edit:
    """The distance wanted between neighbouring frames of the current arrangement; nothing moves."""

    def run(project: Project) -> Project:
        return without_broken(with_current(project, lambda arrangement: msgspec.structs.replace(arrangement, gap=gap)))

    return Edit(say("Change the gap"), run, merge)


def arrangement_of(project: Project, key: Key) -> Arrangement:
    """The arrangement with that key.

    Raises:
        EditRefused: when it is gone.
    """
    arrangement = project.arrangement_by_key.get(key)
    if arrangement is None:
        raise EditRefused(say("The arrangement is no longer there."))
    return arrangement


def add_arrangement(name: str, copy_of: Key | None = None) -> Edit:
    """One more arrangement, made current: empty with the current gap, or a copy of another one."""

    def run(project: Project) -> Project:
        key = f"h{project.next_key}"
        if copy_of is None:
            made = Arrangement(key=key, name=name, gap=project.arrangement.gap)
        else:
            made = msgspec.structs.replace(arrangement_of(project, copy_of), key=key, name=name)
        return msgspec.structs.replace(
            project,
            arrangements=(*project.arrangements, made),
            current_arrangement=key,
            next_key=project.next_key + 1,
        )

    text = say("New arrangement “{name}”", name=name)
    if copy_of is not None:
        text = say("Duplicate an arrangement as “{name}”", name=name)
    return Edit(text, lambda project: tried(lambda: run(project)))


def change_arrangement_fields(project: Project, key: Key, **fields: Any) -> Edit:
    """An arrangement's name or note."""
    name = arrangement_of(project, key).name

    def run(current: Project) -> Project:
        old = arrangement_of(current, key)
        made = tried(lambda: msgspec.structs.replace(old, **fields))
        if made == old:
            return current
        arrangements = tuple(made if other is old else other for other in current.arrangements)
        return without_broken(tried(lambda: msgspec.structs.replace(current, arrangements=arrangements)))

    return Edit(say("Change the arrangement “{name}”", name=name), run)


def make_current(project: Project, key: Key) -> Edit:
    """Another arrangement is shown and printed."""
    name = arrangement_of(project, key).name

    def run(current: Project) -> Project:
        arrangement_of(current, key)
        if current.current_arrangement == key:
            return current
        return msgspec.structs.replace(current, current_arrangement=key)

    return Edit(say("Show the arrangement “{name}”", name=name), run)


def delete_arrangement(project: Project, key: Key) -> Edit:
    """An arrangement; if it was the current one, the one before it is shown. The last one stays."""
    name = arrangement_of(project, key).name

    def run(current: Project) -> Project:
        gone = arrangement_of(current, key)
        if len(current.arrangements) == 1:
            raise EditRefused(say("A project has at least one arrangement."))
        kept = tuple(other for other in current.arrangements if other is not gone)
        shown = current.current_arrangement
        if shown == key:
            shown = kept[max(0, current.arrangements.index(gone) - 1)].key
        return msgspec.structs.replace(current, arrangements=kept, current_arrangement=shown)

    return Edit(say("Delete the arrangement “{name}”", name=name), run)
