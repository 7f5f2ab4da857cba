"""Findings about prints and mats: that they come, that they do not, and their numbers by hand."""

from typing import Any

import pytest

from composer.findings import check
from composer.model import EvenBorders, Finding, Mat, MatLayer, Picture, Piece, PrintChoice
from tests.findings.print_case import everything_inside, framed, mm, project_of, without_picture

INCH = 25.4
OURS = {
    "low-ppi", "no-stock", "stock-short", "print-touches-glass", "stack-too-deep", "mat-impossible", "mat-undecided",
    "picture-missing", "picture-changed", "picture-unreadable",
}  # fmt: skip


def found(piece: Piece, distance_mm: float | None = None) -> dict[str, Finding]:
    return {one.code: one for one in check(project_of([piece], distance_mm=distance_mm)) if one.code in OURS}


def values(finding: Finding) -> dict[str, Any]:
    return dict(finding.values)


def test_each_stands_at_its_own_frame() -> None:
    codes = {(one.pieces[0], one.code) for one in everything_inside() if one.code in OURS}
    assert codes == {
        (51, "low-ppi"), (51, "picture-changed"), (52, "no-stock"), (53, "no-stock"), (54, "stock-short"),
        (55, "stock-short"), (56, "print-touches-glass"), (56, "stack-too-deep"), (57, "stack-too-deep"),
        (58, "mat-impossible"), (59, "mat-undecided"), (60, "picture-unreadable"),
    }  # fmt: skip


def test_512_pixels_on_8_inches() -> None:
    # 512 ÷ 8 in = 64 ppi; 100 are needed at least, so 5.12 in = 130.048 mm is the most.
    soft = found(framed(1, (8 * INCH, 8 * INCH), picture="i401"))["low-ppi"]
    assert soft.level == "warn"
    assert values(soft)["ppi"] == 64
    assert values(soft)["needed_ppi"] == 100
    assert values(soft)["most_width_mm"] == pytest.approx(130.048)


def test_a_wall_seen_from_close_by_needs_more() -> None:
    # 512 ÷ 4 in = 128 ppi. From 1 m 1.5 × 87.32 = 131 are needed (ISO 8596), from 2 m only 100.
    piece = framed(1, (4 * INCH, 4 * INCH), picture="i401")
    assert "low-ppi" in found(piece, distance_mm=1000)
    assert "low-ppi" not in found(piece, distance_mm=2000)
    assert "low-ppi" not in found(piece)


def test_a_large_picture_is_sharp_enough_and_none_says_nothing() -> None:
    assert found(framed(1, (200, 250))) == {}
    assert found(framed(1, (200, 250), picture=None)) == {}


def test_no_stock_is_a_warning_where_a_picture_waits_and_a_note_else() -> None:
    piece = framed(1, (25 * INCH, 37 * INCH))
    assert found(piece)["no-stock"].level == "warn"
    assert found(without_picture(piece))["no-stock"].level == "note"


def test_5_by_7_in_a_13_by_18_frame_may_hide_its_shortness_under_the_lip() -> None:
    # Short by 130 − 127 = 3 and 180 − 177.8 = 2.2, so 1.5 on each side. Glass 130, sight 133 − 12 = 121:
    # the lip hides (130 − 121) ÷ 2 = 4.5.
    short = found(framed(1, (130, 180), print=PrintChoice(stock="5x7in")))["stock-short"]
    assert short.level == "note"
    assert (values(short)["across_mm"], values(short)["up_mm"]) == pytest.approx((3, 2.2))
    assert values(short)["hidden_mm"] == pytest.approx(4.5)
    shows = found(framed(1, (150, 180), print=PrintChoice(stock="5x7in")))["stock-short"]
    assert shows.level == "warn"


def test_glazing_touches_a_print_without_a_mat_only() -> None:
    glass = {"glazing": "acrylic"}
    assert "print-touches-glass" in found(framed(1, (200, 250), frame=glass))
    assert "print-touches-glass" not in found(framed(1, (200, 250), frame=glass, picture=None))
    assert "print-touches-glass" not in found(framed(1, (200, 250), frame={"glazing": "none"}))
    matted = framed(1, (200, 250), frame=glass, mat=Mat(borders=EvenBorders(border=mm(40))))
    assert "print-touches-glass" not in found(matted)


def test_a_stack_is_too_deep_by_its_sum() -> None:
    # 2 + 1.4 + 1.4 + 0.25 + 3 = 8.05.
    layers = (MatLayer(board="mat-4-ply"), MatLayer(board="mat-4-ply", reveal=mm(5)))
    frame = {"glazing": "glass", "glazing_thickness": mm(2), "backing_thickness": mm(3)}

    def deep(rabbet: float) -> dict[str, Finding]:
        mat = Mat(layers=layers, borders=EvenBorders(border=mm(40)))
        return found(framed(1, (200, 250), frame={**frame, "rabbet_depth": mm(rabbet)}, mat=mat))

    assert "stack-too-deep" not in deep(8.05)
    thick = deep(8.0)["stack-too-deep"]
    assert values(thick)["stack_mm"] == pytest.approx(8.05)
    assert values(thick)["sum"] == "2 + 1.4 + 1.4 + 0.25 + 3"


def test_an_empty_frame_s_stack_is_a_note_only() -> None:
    # 2 glass + 0.25 print + 3 backing = 5.25 of 5.
    frame = {"glazing": "glass", "glazing_thickness": mm(2), "backing_thickness": mm(3), "rabbet_depth": mm(5)}
    piece = framed(1, (200, 250), frame=frame)
    assert found(piece)["stack-too-deep"].level == "warn"
    assert found(without_picture(piece))["stack-too-deep"].level == "note"
    unknown = framed(1, (200, 250), frame={"glazing": "unknown", "rabbet_depth": mm(1)}, picture=None)
    assert "stack-too-deep" not in found(unknown)


def test_the_state_of_a_picture_s_file() -> None:
    project = project_of([framed(1, (200, 250))])

    def codes(state: bool | str) -> list[str]:
        def answer(_: Picture) -> bool | str:
            return state

        return [one.code for one in check(project, missing=answer) if one.code.startswith("picture")]

    assert codes("") == []
    assert codes(False) == []
    assert codes("missing") == codes(True) == ["picture-missing"]
    assert codes("changed") == ["picture-changed"]
    assert codes("“large.jpg” is cut off.") == ["picture-unreadable"]
