"""Why a fixing cannot hold a piece, and the ways out where strips do not fit, in words."""

from typing import Literal

from composer.catalogue.names import hanger_name, surface_name
from composer.hanging.fixings import Offer
from composer.hanging.strip_ladder import Rung
from composer.texts import N_, say
from composer.units import LengthStyle, Mm, show_length, show_mass

_STRIP_SIZES = {"small": N_("small"), "medium": N_("medium"), "large": N_("large")}


def _mass_unit(style: LengthStyle | None) -> Literal["lb", "kg"]:
    return "lb" if style is not None and style.unit == "in" else "kg"


def why_not(offer: Offer, style: LengthStyle | None = None) -> str:
    """Why this class does not hold the piece here; empty where it does."""
    if offer.why_not is None:
        return ""
    values = dict(offer.values)
    unit = _mass_unit(style)
    if offer.why_not == "too-weak":
        return say(
            "carries {capacity}; the piece weighs up to {weight}",
            capacity=show_mass(float(values["capacity_kg"]), unit),
            weight=show_mass(float(values["weight_kg"]), unit),
        )
    if offer.why_not == "hanger":
        return say("does not go with {hanger}", hanger=hanger_name(str(values["hanger"])))
    if offer.why_not == "wall-kind":
        return say("does not hold in {surface}", surface=surface_name(str(values["surface"])))
    if offer.why_not == "stud-missed":
        away = show_length(Mm(abs(float(values["away_mm"]))), style or LengthStyle("mm"))
        return say("misses the stud by {away}", away=away)
    return {
        "no-points": say("the hanger is not measured"),
        "no-holes": say("this wall may have no holes"),
        "wall-unknown": say("nobody noted what the wall is made of"),
        "weight-unknown": say("the piece is not weighed"),
        "stud-unknown": say("no stud is known"),
        "stud-there": say("a stud is behind it: take a screw there"),
        "rail-needed": say("only where a picture rail is there"),
    }[offer.why_not]


def way_out(rung: Rung, style: LengthStyle | None = None) -> str:
    """One rung of the ladder for a moulding too narrow for strips, as an order or a reason why not."""
    size = say(_STRIP_SIZES[rung.size]) if rung.size else ""
    unit = _mass_unit(style)
    carries = "" if rung.capacity_kg is None else show_mass(rung.capacity_kg, unit)
    if rung.way == "smaller":
        if rung.works:
            return say("Take {size} strips; they carry {capacity}.", size=size, capacity=carries)
        return say("No smaller class fits and carries it.")
    if rung.way == "filler":
        if rung.works and rung.filler_mm is not None:
            return say(
                "Glue and screw a filler {width} wide flush with the moulding; {size} strips then carry {capacity}.",
                width=show_length(rung.filler_mm, style or LengthStyle("mm")),
                size=size,
                capacity=carries,
            )
        return say("A filler does not help: strips do not carry it.")
    if rung.way == "nails":
        return say("Hang it by nails.") if rung.works else say("Nails are no way: this wall may have no holes.")
    if rung.works:
        return say(
            "Last resort: cut {size} strips lengthwise. They carry {capacity}, and the packet's word is void.",
            size=size,
            capacity=carries,
        )
    return say("Strips cut lengthwise do not fit or do not carry it.")
