"""How a frame is filled: what lies in the rabbet, front to back, and the steps to put it there."""

from dataclasses import dataclass

from composer.catalogue import catalogue as catalogues
from composer.model import Project
from composer.prints.mats import StackPart, stack, stack_mm
from composer.prints.plan import PiecePlan
from composer.texts import say

GLAZED = ("glass", "acrylic", "styrene")

SPARE_MM = 3.0
"""Room behind the backing that points or tabs need (common practice, no source)."""


@dataclass(frozen=True, slots=True)
class Filling:
    """What lies in a frame.

    Attributes:
        parts: front to back.
        thick_mm: all of it.
        rabbet_mm: depth of the rabbet; None = not measured.
        steps: what to do, in order, each one sentence.
    """

    parts: tuple[StackPart, ...]
    thick_mm: float
    rabbet_mm: float | None
    steps: tuple[str, ...]

    @property
    def left_mm(self) -> float | None:
        """What stays of the rabbet's depth, negative where it is too shallow; None = not measured."""
        return None if self.rabbet_mm is None else self.rabbet_mm - self.thick_mm


def filling(project: Project, planned: PiecePlan) -> Filling:
    """The stack of one piece and how it is put together.

    Hinges at the top edge only, so that paper can move with the air's moisture (Library of Congress, guide to
    matting and hinging).
    """
    frame, mat = planned.piece.frame, planned.piece.mat
    paper = None if planned.use is None else planned.use.print.paper
    parts = stack(frame, mat, catalogues.of(project.catalogue), paper)
    rabbet = None if frame.rabbet_depth is None else float(frame.rabbet_depth.mm)
    return Filling(parts, stack_mm(parts), rabbet, tuple(_steps(planned, stack_mm(parts), rabbet)))


def _steps(planned: PiecePlan, thick: float, rabbet: float | None) -> list[str]:
    frame, mat = planned.piece.frame, planned.piece.mat
    glazed = frame.glazing in GLAZED
    steps = [say("Lay the frame face down on something soft and clean the rabbet.")]
    if glazed:
        steps.append(say("Lay the glazing in, clean and dry; look for dust against the light."))
    if mat is None:
        if glazed:
            steps.append(say("Stick strips of spacer along the rabbet, so that the print does not touch the glazing."))
        steps.append(say("Lay the print in face down."))
    elif planned.mat is not None and planned.mat.floats:
        steps.append(say("Fix the print to its backing with two hinges at its top edge; it floats in the window."))
        steps.append(say("Lay the mat in face down, then the print on its backing."))
    else:
        steps.append(
            say(
                "Hinge the print behind the window with two strips of tape at its top edge only, so that it can stretch."
            )
        )
        steps.append(say("Lay mat and print in face down."))
    steps.append(say("Lay the backing in and look from the front once more."))
    left = None if rabbet is None else rabbet - thick
    if left is None:
        steps.append(say("Fix the backing with points or tabs every 10 cm, and tape the joint against dust."))
    elif left < -1e-6:
        steps.append(say("It stands out of the rabbet: hold the back with offset clips, or take a thinner backing."))
    elif left < SPARE_MM:
        steps.append(say("There is little room behind the backing: press flat points in along it, do not bend tabs."))
    else:
        steps.append(say("Fix the backing with points or tabs every 10 cm, and tape the joint against dust."))
    return steps
