"""The weight estimate against frames worked out by hand and volumes counted another way."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from composer.catalogue import catalogue
from composer.hanging import mass_kernel
from composer.hanging.weight import estimate, weight_of, with_glazing
from composer.model import CatalogueChange, CatalogueNotes, Frame, Hanger, Mat, PictureUse, Piece, PrintChoice
from composer.model.mat import CustomBorders, EvenBorders
from composer.units import Length, Mass, Mm


def mm(value: float) -> Length:
    return Length.of_mm(value)


def framed(mat: Mat | None = None, paper: str = "photo", weight: Mass | None = None, **frame: Any) -> Piece:
    lengths: dict[str, Any] = {
        name: mm(value) if isinstance(value, int | float) and name != "profile_area_mm2" else value
        for name, value in frame.items()
    }
    return Piece(
        key="p1",
        number=1,
        name="boats",
        frame=Frame(**lengths),
        mat=mat,
        hanger=Hanger(kind="strips"),
        uses=(PictureUse(picture="i2", print=PrintChoice(paper=paper)),),
        current_use=0,
        weight=weight,
    )


def window(width: float, height: float, overlap: float = 0) -> Mat:
    return Mat(window_width=mm(width), window_height=mm(height), overlap=mm(overlap))


# Three frames worked out by hand from the densities named in the catalogue; the sum stands at the end.
PINE: dict[str, Any] = {
    "width": 300, "height": 400, "face": 20, "moulding_thickness": 15, "lip": 6, "rabbet_depth": 8, "allowance": 3,
    "moulding": "pine", "glazing": "glass", "glazing_thickness": 2, "backing": "mdf", "backing_thickness": 2.5,
}  # fmt: skip
# 269 × 369 of everything: 0.1502 moulding + 0.4963 glass + 0.0445 mat (180 × 280 out) + 0.0258 print + 0.1985 + 0.03.
OAK: dict[str, Any] = {
    "width": 500, "height": 700, "face": 30, "moulding_thickness": 20, "lip": 6, "rabbet_depth": 10, "allowance": 3,
    "moulding": "oak", "glazing": "glass", "glazing_thickness": 2, "backing": "mdf", "backing_thickness": 3,
}  # fmt: skip
# 449 × 649: 0.8728 + 1.4570 + 0.1287 (300 × 500 out) + 0.0516 (320 × 520 at 310 g/m²) + 0.6994 + 0.06.
ALUMINIUM: dict[str, Any] = {
    "width": 700, "height": 1000, "face": 12, "profile_area_mm2": 110.0, "glass_width": 692, "glass_height": 992,
    "moulding": "aluminium", "glazing": "acrylic", "glazing_thickness": 3, "backing": "foam-board",
}  # fmt: skip
# Section 110 mm², centroid 6 mm in: 0.9955 + 2.4507 + 0.4119 + 0.1785 + 0.08.


@pytest.mark.parametrize(
    ("piece", "kg"),
    [
        # The print is as large as the board: (269 − 180)/2 = (369 − 280)/2 = 44.5 under the mat.
        (framed(window(180, 280, 44.5), **PINE), 0.9453),
        (framed(window(180, 280, 44.5), **{**PINE, "glazing": "acrylic"}), 0.6853),
        (framed(window(300, 500, 10), "cotton", **OAK), 3.2694),
        (framed(window(300, 500, 10), "cotton", **{**OAK, "glazing": "acrylic"}), 2.5060),
        (framed(None, **ALUMINIUM), 4.1166),
        (framed(None, **{**ALUMINIUM, "glazing": "glass"}), 6.8144),
    ],
)
def test_three_frames_to_half_a_gram(piece: Piece, kg: float) -> None:
    weight = estimate(piece, catalogue.usual())
    assert weight is not None
    assert weight.kg == pytest.approx(kg, abs=0.0005)


def test_an_overlap_nobody_typed_is_the_usual_one_as_for_the_print_order() -> None:
    # By hand: 186 × 286 of print for a window of 180 × 280 and 3 mm all round (framers' common practice).
    mat = Mat(window_width=mm(180), window_height=mm(280))
    usual = estimate(framed(mat, **PINE), catalogue.usual())
    typed = estimate(framed(window(180, 280, 3), **PINE), catalogue.usual())
    assert usual is not None
    assert typed is not None
    assert usual.parts == typed.parts
    print_part = next(part for part in usual.parts if part.what == "print")
    assert print_part.area_mm2 == pytest.approx(186 * 286)


@pytest.mark.parametrize(
    ("width", "height", "face", "thickness", "lip", "rabbet", "expected"),
    [(300, 400, 20, 15, 6, 8, 335_328), (500, 700, 30, 20, 6, 10, 1_236_960)],
)
def test_volume_of_moulding_is_outside_less_inside_less_rabbet(
    width: int, height: int, face: int, thickness: int, lip: int, rabbet: int, expected: int
) -> None:
    # Counted another way: the block, less the block that is sight, less the ring of the rabbet.
    inside = (width - 2 * face, height - 2 * face)
    opening = (inside[0] + 2 * lip, inside[1] + 2 * lip)
    block = (width * height - inside[0] * inside[1]) * thickness
    ring = (opening[0] * opening[1] - inside[0] * inside[1]) * rabbet
    assert block - ring == expected
    measures = (Mm(float(face)), Mm(float(thickness)), Mm(float(lip)), Mm(float(rabbet)))
    volume = mass_kernel.moulding_volume_mm3(
        Mm(float(width)), Mm(float(height)), mass_kernel.profile_area_mm2(*measures), mass_kernel.centroid_mm(*measures)
    )
    assert volume == pytest.approx(expected, abs=1e-6)


def test_glazing_is_the_largest_part() -> None:
    # By hand from the sums above: 0.4963/0.9453 = 53 %, 1.4570/3.2694 = 45 %, 2.4507/4.1166 = 60 %.
    oak = estimate(framed(window(300, 500, 10), "cotton", **OAK), catalogue.usual())
    aluminium = estimate(framed(None, **ALUMINIUM), catalogue.usual())
    assert oak is not None
    assert aluminium is not None
    assert oak.share("glazing") == pytest.approx(0.4456, abs=1e-3)
    assert aluminium.share("glazing") == pytest.approx(0.5953, abs=1e-3)


def test_acrylic_for_glass_takes_off_131_grams_a_square_decimetre_times_fifty() -> None:
    # 0.5 m² of 2 mm: 0.5 · 2 · (2.5 − 1.19) = 1.31 kg.
    glass = mass_kernel.solid_kg(0.5e6 * 2, 2500) - mass_kernel.solid_kg(0.5e6 * 2, 1190)
    assert glass == pytest.approx(1.31, abs=1e-12)


def test_what_if_the_glass_were_acrylic() -> None:
    # Estimated: the sums above, 3.2694 and 2.5060. Weighed 3.3 kg: less the same 0.7635 (449 · 649 · 2 mm · 1.31).
    oak = framed(window(300, 500, 10), "cotton", **OAK)
    lighter = with_glazing(oak, "acrylic")
    assert lighter is not None
    assert lighter.kg == pytest.approx(2.5060, abs=0.0005)
    weighed = with_glazing(framed(window(300, 500, 10), "cotton", Mass.from_text("3.3 kg"), **OAK), "acrylic")
    assert weighed is not None
    assert weighed.kg == pytest.approx(3.3 - 0.291401 * 2 * 1.31, abs=1e-6)
    assert not weighed.measured
    assert with_glazing(framed(**{**OAK, "glazing": "unknown"}), "acrylic") is None


def test_the_scales_win() -> None:
    weight = weight_of(framed(weight=Mass.from_text("1 lb"), **PINE))
    assert weight is not None
    # 1 lb = 0.45359237 kg exactly (international avoirdupois pound, 1959).
    assert (weight.kg, weight.low, weight.high, weight.measured) == (0.45359237, 0.45359237, 0.45359237, True)


@pytest.mark.parametrize("unknown", ["moulding", "face", "glazing", "moulding_thickness"])
def test_no_weight_is_made_up(unknown: str) -> None:
    assert weight_of(framed(**{name: value for name, value in PINE.items() if name != unknown})) is None


def test_what_nobody_measured_widens_the_range() -> None:
    known = weight_of(framed(**PINE))
    vague = weight_of(
        framed(**{name: value for name, value in PINE.items() if name not in {"backing", "glazing_thickness"}})
    )
    assert known is not None
    assert vague is not None
    assert vague.high - vague.low > known.high - known.low
    assert {part.what for part in vague.parts if part.assumed} == {"glazing", "backing", "hardware"}


def test_frames_without_glazing_have_none() -> None:
    weight = weight_of(framed(**{**PINE, "glazing": "none"}))
    assert weight is not None
    assert "glazing" not in {part.what for part in weight.parts}


@pytest.mark.parametrize(
    ("mat", "area"),
    [
        (Mat(borders=EvenBorders(border=mm(40))), 269 * 369 - (269 - 80) * (369 - 80)),
        (
            Mat(borders=CustomBorders(top=mm(40), bottom=mm(50), left=mm(30), right=mm(30))),
            269 * 369 - (269 - 60) * (369 - 90),
        ),
    ],
)
def test_the_board_of_a_mat_by_its_borders(mat: Mat, area: float) -> None:
    weight = weight_of(framed(mat, **PINE))
    assert weight is not None
    (board,) = [part for part in weight.parts if part.what == "mat"]
    # 4-ply board 910 g/m² (trade table for grey board).
    assert board.kg == pytest.approx(area * 910e-9, abs=1e-12)


def test_a_density_typed_over_counts() -> None:
    notes = CatalogueNotes(changed=(CatalogueChange(entry="glazing:glass", field="density_kg_m3", value=2600.0),))
    usual, own = weight_of(framed(**PINE)), weight_of(framed(**PINE), catalogue.of(notes))
    assert usual is not None
    assert own is not None
    # 269 × 369 × 2 mm of 100 kg/m³ more.
    assert own.kg - usual.kg == pytest.approx(269 * 369 * 2 * 100e-9, abs=1e-12)


@given(
    width=st.integers(100, 1200),
    height=st.integers(100, 1200),
    face=st.integers(8, 45),
    thickness=st.integers(8, 40),
    glazing=st.sampled_from(["glass", "acrylic", "styrene", "none"]),
    moulding=st.sampled_from(["pine", "oak", "mdf", "aluminium"]),
    backing=st.sampled_from([None, "mdf", "foam-board", "hardboard"]),
    rabbet=st.sampled_from([None, 6]),
)
def test_the_whole_is_the_sum_and_lies_between_low_and_high(
    width: int,
    height: int,
    face: int,
    thickness: int,
    glazing: str,
    moulding: str,
    backing: str | None,
    rabbet: int | None,
) -> None:
    piece = framed(
        width=width, height=height, face=face, moulding_thickness=thickness, lip=min(6, face), allowance=3,
        glazing=glazing, moulding=moulding, backing=backing, rabbet_depth=rabbet,
    )  # fmt: skip
    weight = weight_of(piece)
    assert weight is not None
    assert weight.kg == pytest.approx(sum(part.kg for part in weight.parts))
    assert 0 < weight.low <= weight.kg <= weight.high
    for part in weight.parts:
        assert part.low <= part.kg <= part.high
        assert weight.kg >= part.kg
