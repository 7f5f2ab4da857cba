"""Names of kinds, sheets and economies, and what is proposed when the window opens."""

from __future__ import annotations

from dataclasses import replace

from composer.model import PaperChoice, Project
from composer.paper.kinds import PaperOptions
from composer.paper.sheets import SIZES_MM
from composer.texts import N_, say
from composer.units import Length

KINDS = (
    ("templates", N_("Templates")),
    ("wall", N_("Wall sheet, full size")),
    ("cut-outs", N_("Cut-outs from any paper")),
    ("measure", N_("Measuring sheet")),
    ("hanging-list", N_("Hanging list")),
    ("mats", N_("Cutting list for mats")),
    ("prints", N_("Print order and trimming")),
    ("shopping", N_("Shopping list")),
    ("rehang", N_("Rehang plan")),
    ("elevation", N_("Elevation")),
    ("scale-check", N_("Scale check")),
)

ECONOMY_WORDS: dict[str, tuple[str, str]] = {
    "full": (N_("Full"), N_("the whole outline")),
    "outline": (N_("Outline"), N_("blank inner sheets left out")),
    "corners": (N_("Corners"), N_("corners and crosses")),
    "points": (N_("Points"), N_("crosses only")),
}

SHEET_NAMES = {
    "a4": "A4",
    "a3": "A3",
    "a2": "A2",
    "a1": "A1",
    "a0": "A0",
    "letter": "Letter",
    "legal": "Legal",
    "tabloid": "Tabloid",
}


def sheet_words(name: str) -> str:
    """A sheet with its size."""
    width, height = SIZES_MM[name]
    if height is None:
        return say("Roll, {width} mm wide", width=f"{width:g}")
    return say(
        "{name}, {width} × {height} mm", name=SHEET_NAMES.get(name, name), width=f"{width:g}", height=f"{height:g}"
    )


def proposed(project: Project) -> PaperOptions:
    """What was chosen last; for pieces larger than a sheet the points alone, until the person says otherwise."""
    options = PaperOptions.usual(project)
    if project.paper.economy is not None:
        return options
    return replace(options, economy="points") if larger_than_a_sheet(project, options) else options


def larger_than_a_sheet(project: Project, options: PaperOptions) -> list[int]:
    """Numbers of the pieces whose outline does not fit the printable part of one sheet, either way up."""
    width, height = options.sheet.width_mm, options.sheet.height_mm
    if height is None:
        return []
    margins = options.margins
    room = sorted((width - margins.left - margins.right, height - margins.bottom - margins.top))
    return [
        piece.number
        for piece in project.pieces
        if any(side > most for side, most in zip(sorted(piece.size_mm()), room, strict=True))
    ]


def choice_of(options: PaperOptions) -> PaperChoice:
    """What is remembered in the project: sheet, margins, overlap, economy."""

    def mm(value: float) -> Length:
        return Length.of_mm(value)

    margins = options.margins
    return PaperChoice(
        sheet=options.sheet.name,
        margins=(mm(margins.left), mm(margins.bottom), mm(margins.right), mm(margins.top)),
        overlap=mm(options.overlap_mm),
        economy=options.economy,
    )
