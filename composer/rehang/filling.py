"""Holes to fill by their size: what made them says how large they are, and how they are filled."""

from typing import Literal

from composer.catalogue.catalogue import Catalogue
from composer.catalogue.records import Fixing
from composer.model import HoleRecord, Project

HoleSize = Literal["nail", "plug", "anchor"]

NAIL_MM, PLUG_MM = 3.0, 8.0
"""Up to these a hole is a nail's or a plug's; above it is an anchor's (judgement, by how it is filled)."""

NAIL_HOLE_MM = 2.0
"""A nail's hole where nobody noted what made it (common practice, no source)."""


def diameter_mm(fixing: Fixing | None) -> float:
    """How wide the hole of a fixing is, mm: its plug's, its drill's, else a nail's."""
    if fixing is None:
        return NAIL_HOLE_MM
    return fixing.plug_mm or fixing.drill_mm or NAIL_HOLE_MM


def size_of(diameter: float) -> HoleSize:
    """What kind of hole it is to fill."""
    if diameter <= NAIL_MM:
        return "nail"
    return "plug" if diameter <= PLUG_MM else "anchor"


def diameter_of_hole(project: Project, hole: HoleRecord, catalogue: Catalogue) -> float:
    """How wide a recorded hole is, mm, by the fixing of the piece that hung there."""
    piece = None if hole.piece is None else project.piece_by_key.get(hole.piece)
    hardware = None if piece is None else piece.hardware
    return diameter_mm(None if hardware is None else catalogue.fixings.get(hardware.fixing))
