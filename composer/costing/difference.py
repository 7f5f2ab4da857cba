"""What a rehang costs: only what changes, with what comes off the wall used again."""

from collections.abc import Iterable
from dataclasses import replace

import msgspec

from composer.catalogue import catalogue as catalogues
from composer.costing.costs import Costs, costs_for
from composer.costing.items import FILLER, PAINT, SANDPAPER, item_key
from composer.costing.need import Need
from composer.costing.needs import needs_of
from composer.hanging.fixings import count_of
from composer.model import Arrangement, InDrawer, Project
from composer.rehang.plan import RehangPlan


def needs_for_change(project: Project, plan: RehangPlan, target: Arrangement | None) -> tuple[Need, ...]:
    """What pieces that go up need in all, new strips for those that move, filler for old holes.

    A piece that moves takes its hooks along; where another takes over its hole, the hook in it serves.
    """
    coming = {change.number for change in plan.of("up")}
    moving = {change.number for change in plan.of("move")}
    found = list(needs_of(project, target, only=coming))
    for need in needs_of(project, target, only=moving):
        if need.group == "strips":
            _join(found, need)
    if plan.fill:
        found += [
            Need("small", FILLER, 1, handy=True),
            Need("small", SANDPAPER, 1, handy=True),
            Need("small", PAINT, 1, handy=True),
        ]
    return tuple(found)


def _join(found: list[Need], need: Need) -> None:
    """Adds a need to the one of the same thing."""
    for place, other in enumerate(found):
        if (other.group, other.item) == (need.group, need.item):
            shares = tuple(sorted((*other.shares, *need.shares)))
            found[place] = replace(other, count=other.count + need.count, shares=shares)
            return
    found.append(need)


def freed(project: Project, plan: RehangPlan) -> tuple[InDrawer, ...]:
    """Fixings that come off the wall and serve again: those of pieces that come down."""
    known = catalogues.of(project.catalogue)
    counts: dict[str, int] = {}
    for change in plan.of("down"):
        hardware = change.piece.hardware
        if hardware is not None and hardware.fixing in known.fixings:
            count = count_of(hardware, known.fixings[hardware.fixing])
            counts[hardware.fixing] = counts.get(hardware.fixing, 0) + count
    return tuple(InDrawer(item=item, count=count) for item, count in counts.items())


def costs_of_change(project: Project, plan: RehangPlan, target: Arrangement | None) -> Costs:
    """What the rehang costs; what comes off the wall counts as being in the drawer."""
    drawer = with_drawer(project, freed(project, plan))
    return costs_for(drawer, needs_for_change(project, plan, target))


def with_drawer(project: Project, more: Iterable[InDrawer]) -> Project:
    """The project with more in its drawer."""
    here = {item_key(one.item): one for one in project.money.in_drawer}
    for one in more:
        before = here.get(item_key(one.item))
        item, count = (one.item, 0) if before is None else (before.item, before.count)
        here[item_key(one.item)] = InDrawer(item=item, count=count + one.count)
    money = msgspec.structs.replace(project.money, in_drawer=tuple(here.values()))
    return msgspec.structs.replace(project, money=money)
