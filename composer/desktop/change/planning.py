"""What the window of the next change shows, reckoned away from the window's thread; nothing here knows Qt."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime, time

import msgspec

from composer.costing.costs import Costs
from composer.costing.difference import costs_of_change
from composer.model import Arrangement, Instant, Key, Project
from composer.paper.figures import Figures, figures_of
from composer.paper.rehang_words import Row, notes_of, rows_of, steps_of
from composer.paper.template_subject import Datum, datum_of
from composer.rehang.plan import RehangPlan, ShiftOffer, offer_shift, plan_rehang
from composer.texts import say

EMPTY_WALL = ""
"""The target of moving out."""


@dataclass(frozen=True, slots=True)
class Planned:
    """A plan with everything that is said about it.

    Attributes:
        target: key of the arrangement it goes to, :data:`EMPTY_WALL` for none.
        offer: a shift of the whole arrangement with which more old holes serve.
        rows: in the order of work.
    """

    project: Project
    wall: Key
    target: str
    plan: RehangPlan
    offer: ShiftOffer | None
    costs: Costs
    rows: tuple[Row, ...]
    steps: tuple[str, ...]
    notes: tuple[str, ...]
    figures: Figures
    datum: Datum


def planned(project: Project, wall: Key, target: str) -> Planned:
    """The plan for one wall.

    Raises:
        KeyError: wall or arrangement are gone.
    """
    record = project.wall_by_key[wall]
    arrangement = None if target == EMPTY_WALL else project.arrangement_by_key[target]
    plan = plan_rehang(project, record, arrangement)
    offer = None if arrangement is None else offer_shift(project, record, arrangement)
    figures, datum = figures_of(project), datum_of(project, record)
    gap = float((arrangement or project.arrangement).gap.mm)
    return Planned(
        project,
        wall,
        target,
        plan,
        offer,
        costs_of_change(project, plan, arrangement),
        tuple(rows_of(project, plan, datum, figures)),
        tuple(steps_of(plan, figures, gap)),
        tuple(notes_of(plan, None, figures)),
        figures,
        datum,
    )


def with_target_shown(project: Project, target: str) -> Project:
    """The project as paper is made of it: the target current; for moving out an arrangement in which nothing hangs."""
    if target != EMPTY_WALL:
        return msgspec.structs.replace(project, current_arrangement=target)
    bare = Arrangement(key=f"h{project.next_key}", name=say("empty wall"), gap=project.arrangement.gap)
    return msgspec.structs.replace(
        project,
        arrangements=(*project.arrangements, bare),
        current_arrangement=bare.key,
        next_key=project.next_key + 1,
    )


def usual_target(project: Project, wall: Key) -> str:
    """The arrangement most likely meant: the current one where it differs from what is up, else the latest."""
    up = {record.piece for record in project.as_hung.items if record.wall == wall and record.down is None}
    current = {place.piece for place in project.arrangement.placements if place.wall == wall}
    if up != current or len(project.arrangements) == 1:
        return project.current_arrangement
    plan = plan_rehang(project, project.wall_by_key[wall], project.arrangement)
    if not plan.nothing_to_do:
        return project.current_arrangement
    others = [one.key for one in project.arrangements if one.key != project.current_arrangement]
    return others[-1]


def now_instant() -> Instant:
    """This moment, UTC, as records have it."""
    return datetime.now(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")


def day_of(instant: Instant) -> str:
    """The day of a moment, here."""
    return datetime.fromisoformat(instant.replace("Z", "+00:00")).astimezone().date().isoformat()


def instant_of_day(day: str) -> Instant:
    """Noon of a day, here, as records have it; today is this moment.

    Raises:
        ValueError: with a sentence, for what is no day such as 2026-04-18, or one to come.
    """
    today = datetime.now().astimezone().date()
    try:
        wanted = datetime.strptime(day.strip(), "%Y-%m-%d").date()
    except ValueError:
        raise ValueError(say("“{day}” is not a day such as 2026-04-18.", day=day.strip()[:20])) from None
    if wanted > today:
        raise ValueError(say("{day} is yet to come.", day=day.strip()))
    if wanted == today:
        return now_instant()
    return datetime.combine(wanted, time(12)).astimezone().astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
