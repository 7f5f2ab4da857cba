"""The check of the budget, and its sentence."""

from composer.findings.words import Sentences, Words
from composer.model import Arrangement, Finding, Project
from composer.texts import say


def check_budget(project: Project, arrangement: Arrangement) -> tuple[Finding, ...]:
    """Whether the wall costs more than may be spent; without a budget it is not asked."""
    if project.money.budget is None:
        return ()
    from composer.costing.costs import costs_of
    from composer.costing.shown import show_money

    costs = costs_of(project, arrangement)
    if costs.to_spare is None or costs.to_spare >= 0:
        return ()
    amounts = (("budget", project.money.budget), ("total", costs.total), ("over", -costs.to_spare))
    values = tuple((name, show_money(amount, project.currency)) for name, amount in amounts)
    return (Finding(level="warn", code="over-budget", values=(*values, ("currency", project.currency))),)


def _over(words: Words) -> str:
    return say(
        "To pay are {total} {currency}, {over} more than the budget of {budget}.",
        total=words.word("total"),
        currency=words.word("currency"),
        over=words.word("over"),
        budget=words.word("budget"),
    )


def _over_do(_: Words) -> str:
    return say("Take one of the cheaper ways the shopping list names, or raise the budget.")


SENTENCES: Sentences = {"over-budget": (_over, _over_do)}
