"""What lies in a frame and how it gets there."""

from typing import Any

import pytest

from composer.model import EvenBorders, Mat
from composer.prints.fitting import filling
from composer.prints.plan import plan
from tests.findings.print_case import framed, mm, project_of

GLASS = {"glazing": "glass", "glazing_thickness": mm(2), "backing_thickness": mm(3)}


def steps(frame: dict[str, Any], mat: Mat | None = None) -> str:
    project = project_of([framed(1, (200, 250), frame=frame, mat=mat)])
    return " ".join(filling(project, plan(project, project.pieces[0])).steps)


def test_the_sum_and_what_is_left() -> None:
    # 2 + 1.4 + 0.25 + 3 = 6.65 of 8.
    mat = Mat(borders=EvenBorders(border=mm(40)))
    project = project_of([framed(1, (200, 250), frame={**GLASS, "rabbet_depth": mm(8)}, mat=mat)])
    made = filling(project, plan(project, project.pieces[0]))
    assert made.thick_mm == pytest.approx(6.65)
    assert made.left_mm == pytest.approx(1.35)
    assert [part.what for part in made.parts] == ["glazing", "mat", "print", "backing"]


def test_the_steps_follow_what_is_there() -> None:
    mat = Mat(borders=EvenBorders(border=mm(40)))
    assert "spacer" in steps(GLASS) and "Hinge" not in steps(GLASS)
    assert "Hinge" in steps(GLASS, mat) and "spacer" not in steps(GLASS, mat)
    assert "glazing" not in steps({"glazing": "none"})
    floating = Mat(borders=EvenBorders(border=mm(40)), overlap=mm(-5))
    assert "floats" in steps(GLASS, floating)
    assert "offset clips" in steps({**GLASS, "rabbet_depth": mm(5)})
    assert "do not bend tabs" in steps({**GLASS, "rabbet_depth": mm(6)})
    assert "every 10 cm" in steps({**GLASS, "rabbet_depth": mm(12)})
