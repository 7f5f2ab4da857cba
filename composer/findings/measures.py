"""Measures a piece may lack, by the names of the inventory table: what they are called, how they are taken."""

from collections.abc import Iterable

from composer.texts import N_, say

_NAMES = {
    "hanger": N_("how it hangs"),
    "width": N_("width"),
    "height": N_("height"),
    "depth": N_("depth"),
    "face": N_("face of the moulding"),
    "lip": N_("lip of the moulding"),
    "drop": N_("drop"),
    "spacing": N_("spacing"),
    "wire": N_("length of the wire"),
    "ring-drop": N_("drop of the rings"),
    "hook-spacing": N_("spacing of the hooks"),
    "weight": N_("weight"),
    "glazing": N_("glazing"),
    "price": N_("price"),
    "glass-width": N_("width of the glass"),
    "glass-height": N_("height of the glass"),
}

_HOW = {
    "face": N_("Measure the width of the moulding from the front: strips must sit on its back, less the lip."),
    "lip": N_("Measure how far the moulding reaches over the glass."),
    "drop": N_("Measure from the frame's top edge down to where it bears: pull a wire up as the hooks will."),
    "spacing": N_("Measure between the middles of the two hanging points."),
    "wire": N_("Measure the wire from ring to ring, pulled straight."),
    "ring-drop": N_("Measure from the frame's top edge down to the wire's rings, left and right."),
    "hook-spacing": N_("Decide how far apart the two hooks shall be, about a third of the frame's width."),
    "weight": N_("Weigh it with everything in it: on the scales with it, then without."),
}


def measure_name(measure: str) -> str:
    """What a measure is called."""
    return say(_NAMES.get(measure, measure))


def where_measured(measure: str) -> str:
    """How to take a measure, as an order."""
    return say(_HOW[measure]) if measure in _HOW else say("Measure {measure}.", measure=measure_name(measure))


def listed(measures: Iterable[str]) -> str:
    """Several measures as a list in words."""
    names = [measure_name(measure) for measure in measures]
    if len(names) < 2:
        return "".join(names)
    return say("{first} and {last}", first=", ".join(names[:-1]), last=names[-1])
