"""What the hanging section says in a sentence: how a piece hangs, and what to mind with its kind of hanger."""

from __future__ import annotations

from composer.catalogue import catalogue
from composer.catalogue.names import hanger_name, strip_measures_note
from composer.desktop.cards.session import shown_in
from composer.findings.measures import listed
from composer.hanging.points import hang
from composer.model import Key, Project
from composer.texts import say
from composer.units import Mm, show_length, show_mass


def sentence_of(project: Project, key: Key) -> str:
    """How a piece hangs, in one sentence."""
    piece = project.piece_by_key[key]
    place = project.placement_by_piece.get(key)
    hanging = hang(piece, turned=place is not None and place.turned, catalogue=catalogue.of(project.catalogue))
    for problem in hanging.problems:
        if problem.code == "not-measured":
            return say("Still to measure: {what}.", what=listed(str(problem.value("missing")).split()))
        if problem.code == "hanger-impossible":
            return say("These measures cannot be: look at the findings.")
    if hanging.kind is None:
        return say("Not known for this way up yet.")
    style = shown_in(project)
    if hanging.strips is not None:
        plan = hanging.strips
        if plan.weight_kg:
            return say(
                "{count} {size} pairs hold {factor} times its weight.",
                count=plan.pairs,
                size=say(plan.size),
                factor=f"{plan.capacity_kg / plan.weight_kg:.1f}",
            )
        return say(
            "{count} {size} pairs carry {mass}; its weight is missing.",
            count=plan.pairs,
            size=say(plan.size),
            mass=show_mass(plan.capacity_kg, project.mass_unit),
        )
    name = hanger_name(hanging.kind)
    if hanging.kind == "ledge":
        return say("Stands on a ledge.")
    if hanging.drop_mm is None:
        return say("Hangs by {hanger}.", hanger=name)
    drop = show_length(Mm(hanging.drop_mm), style)
    if hanging.drop_is == "computed":
        return say("Hangs by {hanger}, drop {drop} by the wire's length.", hanger=name, drop=drop)
    return say("Hangs by {hanger}, drop {drop}.", hanger=name, drop=drop)


def advice_on(kind: str | None) -> str:
    """What to mind with a kind of hanger; empty while none is chosen."""
    if kind == "strips":
        return say("Smooth painted walls only. The packet wins.") + "\n" + strip_measures_note()
    if kind in ("wire", "d-rings", "sawtooth", "keyholes", "cleat"):
        return say("Before any nail or drill: look for cables and pipes with a detector.")
    return ""
