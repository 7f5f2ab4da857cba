"""Scenarios side by side, and where two of them cost the same."""

from collections.abc import Collection
from dataclasses import dataclass
from decimal import Decimal

from composer.costing.choices import with_scenario
from composer.costing.costs import Costs, costs_of
from composer.costing.items import Group
from composer.costing.packs import cents
from composer.model import Arrangement, Project, Scenario


@dataclass(frozen=True, slots=True)
class Column:
    """One scenario beside others; ``scenario`` None is the project as it is.

    ``difference``: how much more than the project as it is, negative = less.
    """

    scenario: Scenario | None
    project: Project
    costs: Costs
    difference: Decimal

    def of(self, group: Group) -> Decimal:
        """To pay for one kind of thing."""
        return self.costs.of_group(group)


def side_by_side(
    project: Project, arrangement: Arrangement | None = None, *, only: Collection[int] | None = None
) -> tuple[Column, ...]:
    """The project as it is and each of its scenarios, on equal terms: the same needs, packs and drawer.

    Raises:
        BadChoice: where a scenario speaks of a piece that is gone.
    """
    base = costs_of(project, arrangement, only=only)
    columns = [Column(None, project, base, Decimal("0.00"))]
    for scenario in project.money.scenarios:
        other = with_scenario(project, scenario)
        costs = costs_of(other, arrangement, only=only)
        columns.append(Column(scenario, other, costs, costs.total - base.total))
    return tuple(columns)


def groups_of(columns: Collection[Column]) -> tuple[Group, ...]:
    """The kinds of things any of the columns has, in the order of the shopping list."""
    from composer.costing.items import SHOP_OF

    return tuple(group for group in SHOP_OF if any(line.group == group for one in columns for line in one.costs.lines))


def break_even(cheap: Costs, dear: Costs) -> Decimal | None:
    """Up to which price a frame of ``cheap`` pays off against ``dear``, to the cent.

    What ``cheap`` costs without its frames is the same whatever they cost, so each of its n frames
    may cost (total of ``dear`` − total of ``cheap`` without frames) / n, including what it still
    lacks. None where ``cheap`` buys no frames.
    """
    frames = [line for line in cheap.lines if line.group == "frame"]
    count = sum(line.need.count for line in frames)
    if not count:
        return None
    rest = cheap.total - sum((line.cost for line in frames), Decimal(0))
    return cents((dear.total - rest) / count)
