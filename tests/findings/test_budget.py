"""The budget: found where it is passed, to the cent, and asked again only where money changes."""

from decimal import Decimal

import msgspec

from composer.editing.placing import Spot, put
from composer.findings import sentences
from composer.findings.cache import FindingsCache, check
from composer.model import Project
from tests.costing.projects import euro, piece, price, project


def wall(budget: str | None) -> Project:
    """Two pieces at 3.00 on strips, a pack for both at 4.95: 10.95; prints are here."""
    pieces = [piece(n, price=euro("3.00"), stage="print-here") for n in (1, 2)]
    amount = None if budget is None else Decimal(budget)
    return project(*pieces, budget=amount, prices=(price("strips-medium", "4.95", 4),))


def codes(of: Project) -> list[str]:
    return [finding.code for finding in check(of)]


def test_over_the_budget_by_a_cent() -> None:
    """By hand: 2 · 3.00 + 4.95 = 10.95."""
    assert "over-budget" not in codes(wall("10.95"))
    (found,) = [finding for finding in check(wall("10.94")) if finding.code == "over-budget"]
    assert found.level == "warn"
    assert sentences.text(found) == "To pay are 10.95 EUR, 0.01 more than the budget of 10.94."
    assert sentences.do(found).startswith("Take one of the cheaper ways")


def test_no_budget_no_finding() -> None:
    assert "over-budget" not in codes(wall(None))


def test_moving_a_piece_does_not_ask_again() -> None:
    cache = FindingsCache()
    start = put(wall("5.00"), {"p1": Spot("w901", 500.0, 1200.0), "p2": Spot("w901", 900.0, 1200.0)}).run(wall("5.00"))
    assert "over-budget" in [finding.code for finding in cache.check(start)]
    moved = put(start, {"p1": Spot("w901", 480.0, 1210.0)}).run(start)
    without = msgspec.structs.replace(moved, money=msgspec.structs.replace(moved.money, budget=None))
    before = cache.runs
    cache.check(moved)
    runs = cache.runs - before
    fresh = FindingsCache()
    fresh.check(msgspec.structs.replace(start, money=without.money))
    before = fresh.runs
    fresh.check(without)
    assert runs == fresh.runs - before, "as many checks as without a budget"
