"""Money and the next change in the report: every figure the shopping list and the rehang plan print."""

from decimal import Decimal
from typing import Any

from composer.costing.costs import Costs, costs_of, rows_of
from composer.costing.items import PAPER, item_key
from composer.model import Arrangement, Project
from composer.rehang.plan import Change, RehangPlan, plan_rehang


def costs_as_printed(project: Project, arrangement: Arrangement) -> Costs:
    """What the shopping list adds up: with the templates' paper, where that has a price."""
    named = [price.item for price in project.money.prices] + [one.item for one in project.money.in_drawer]
    if item_key(PAPER) not in {item_key(item) for item in named}:
        return costs_of(project, arrangement)
    from composer.paper.kinds import PaperOptions
    from composer.paper.templates import templates

    pages, _ = templates(project, arrangement, PaperOptions.usual(project).full_size())
    return costs_of(project, arrangement, template_sheets=len(pages))


def costs_json(costs: Costs) -> dict[str, Any]:
    """Total, used up, and a line for each pack size; ``what`` is the name a price row calls the thing by."""
    return {
        "total": money(costs.total),
        "used": money(costs.used),
        "lines": [
            {
                "what": row.line.need.item,
                "each": money(row.each),
                "packs": row.packs,
                "used": money(row.used),
                "left_over": row.left_over,
                "cost": money(row.cost),
            }
            for row in rows_of(costs)
        ],
    }


def unpriced_json(costs: Costs) -> list[dict[str, Any]]:
    """What has no price: the name a price row would call it by, and how many are needed."""
    return [{"what": need.item, "need": need.count} for need in costs.unpriced]


def piece_cost(costs: Costs, number: int) -> float | int | None:
    """Money's worth one piece uses up."""
    worth = costs.of_piece(number)
    return None if worth is None else money(worth)


def money(amount: Decimal) -> float | int:
    """An amount as a plain number, to the cent."""
    number = float(amount)
    return int(number) if number.is_integer() else round(number, 2)


def rehang_json(project: Project, arrangement: Arrangement) -> list[dict[str, Any]]:
    """The way from what is up to this arrangement, a part for each wall on which something is up."""
    walls = {item.wall for item in project.as_hung.items if item.down is None}
    walls |= {hole.wall for hole in project.as_hung.holes if hole.state != "filled"}
    return [_plan(plan_rehang(project, wall, arrangement)) for wall in project.walls if wall.key in walls]


def _plan(plan: RehangPlan) -> dict[str, Any]:
    numbers = {change.piece.key: change.number for change in plan.changes}
    return {
        "wall": plan.wall.name,
        "pieces": [_change(change) for change in plan.changes],
        "used_again": plan.used_again,
        "new_holes": plan.new_holes,
        "fill": [{"x": one.hole.at[0], "y": one.hole.at[1], "behind": one.behind} for one in plan.fill],
        "strips_lost": plan.strips_lost,
        "work": [{"do": work.act, "piece": numbers[work.piece]} for work in plan.work],
        "most_aside": plan.most_aside,
    }


def _change(change: Change) -> dict[str, Any]:
    return {
        "number": change.number,
        "do": change.action,
        "left": None if change.then is None else _mm(change.then.left),
        "bottom": None if change.then is None else _mm(change.then.bottom),
        "off": [_mm(off) for off in change.off],
        "holes": [{"x": _mm(hole.x), "y": _mm(hole.y), "old": hole.old is not None} for hole in change.holes],
    }


def _mm(value: float) -> float | int:
    rounded = round(float(value), 6) + 0.0
    return int(rounded) if rounded.is_integer() else rounded
