"""The pictures of sheets that people look at: every kind is among them, and a picture is one page."""

from pathlib import Path

import pytest
from PIL import Image

from composer.paper.kinds import KINDS
from tests.paper.sheet_pictures import Look, looks, take_one
from tests.paper.sheet_projects import nine


def test_every_kind_and_every_sample_is_looked_at() -> None:
    everything = list(looks())
    assert {kind for look in everything for kind in look.kinds} == set(KINDS)
    samples = {path.stem for path in (Path(__file__).resolve().parents[2] / "samples").glob("*.wallwright")}
    assert samples <= {look.name for look in everything}


def test_a_picture_has_the_shape_of_its_page(tmp_path: Path) -> None:
    paths = list(take_one(tmp_path, Look("nine", nine()), "scale-check"))
    assert [path.name for path in paths] == ["nine-scale-check-01.png"]
    with Image.open(paths[0]) as picture:
        # A4 at 100 pixels an inch: 210 and 297 mm of 25.4 mm each.
        assert picture.size == pytest.approx((210 / 0.254, 297 / 0.254), abs=1)
        darkest, lightest = picture.convert("L").getextrema()
    assert (darkest, lightest) == (0, 255)
