"""The forces of a whole piece on its wire, against the oak frame worked by hand."""

import pytest

from composer.catalogue import catalogue
from composer.hanging.statics import statics_working, wire_statics
from composer.model import Frame, Hanger, Piece
from composer.units import Kg, Length, Mass


def mm(value: float) -> Length:
    return Length.of_mm(value)


def oak(kg: float | None = 3.269425, **hanger: object) -> Piece:
    measures = {"spacing": mm(440), "wire": mm(480), "ring_drop": mm(175), **hanger}
    return Piece(
        key="p1",
        number=1,
        name="oak",
        frame=Frame(width=mm(500), height=mm(700), depth=mm(25)),
        hanger=Hanger(kind="wire", **measures),  # type: ignore[arg-type]
        weight=None if kg is None else Mass.of_kg(kg),
    )


def test_the_oak_frame_on_one_hook() -> None:
    # 32.062 N: h = sqrt(240² − 220²) = 95.917; sin θ = h/240, T = W·L/(4h) = 40.11 N = 4.090 kg; ring pull
    # T·220/240 = 36.77 N. c = 350 − 175 = 175: h·c = 16 785 < 48 400.
    found = wire_statics(oak(), catalogue.usual())
    assert found is not None
    assert found.rise_mm == pytest.approx(95.917, abs=1e-3)
    assert found.pull_kg == pytest.approx(40.11 / 9.80665, abs=1e-3)
    assert found.ring_pull_kg == pytest.approx(40.11 * 220 / 240 / 9.80665, abs=1e-3)
    assert (found.side_pull_kg, found.stays_level, found.too_flat) == (None, False, False)
    (line,) = statics_working(found, Kg(3.269425))
    assert line.result.value == pytest.approx(found.pull_kg)


def test_the_same_on_two_hooks() -> None:
    # k 220: h 69.282, T = 30.08 N, sideways on each hook 4.63 N, on each ring 25.45 N.
    found = wire_statics(oak(hooks=2, hook_spacing=mm(220)), catalogue.usual())
    assert found is not None
    assert found.rise_mm == pytest.approx(69.282, abs=1e-3)
    for kg, newtons in ((found.pull_kg, 30.08), (found.side_pull_kg, 4.63), (found.ring_pull_kg, 25.45)):
        assert kg == pytest.approx(newtons / 9.80665, abs=1e-3)
    assert found.stays_level is None


def test_by_the_drop_where_the_wire_is_not_measured() -> None:
    # Rings 175 down, hook 79.083 down: the same rise of 95.917.
    piece = oak(wire=None, drop=mm(175 - 95.917))
    found = wire_statics(piece, catalogue.usual())
    assert found is not None
    assert found.rise_mm == pytest.approx(95.917, abs=1e-6)


def test_what_is_not_known_stays_unknown() -> None:
    unweighed = wire_statics(oak(None), catalogue.usual())
    assert unweighed is not None
    assert (unweighed.pull_kg, unweighed.usable_kg) == (None, None)
    assert wire_statics(oak(spacing=None), catalogue.usual()) is None
