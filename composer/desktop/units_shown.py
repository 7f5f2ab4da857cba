"""How the open project's lengths are shown on screen."""

from __future__ import annotations

from composer.model import Project
from composer.units import LengthStyle, show_length


def number(mm: float, style: LengthStyle) -> str:
    """The bare number, where the unit stands elsewhere."""
    return show_length(mm, style).removesuffix("\u00a0" + style.unit)


def nudge_mm(project: Project) -> float:
    """One step of an arrow key: a millimetre, or a sixteenth of an inch."""
    return 25.4 / 16 if project.units == "imperial" else 1.0
