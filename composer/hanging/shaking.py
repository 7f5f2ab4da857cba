"""What earthquake campaigns ask of fixings, by weight."""

from typing import Literal

from composer.units import Kg

PoundClass = Literal["hook", "stud", "professional"]

HOOK_KG = Kg(20 * 0.45359237)
"""Up to 20 lb (9.07 kg): nail or hook, with putty or hook-and-loop at the corners (Earthquake Country Alliance)."""

STUD_KG = Kg(50 * 0.45359237)
"""Up to 50 lb (22.68 kg): closed hook screwed into a stud; above, professional help (same source)."""


def asked_for(mass: Kg) -> PoundClass:
    """How a piece of that mass is to be held where the earth shakes."""
    if mass <= HOOK_KG:
        return "hook"
    return "stud" if mass <= STUD_KG else "professional"
