"""Crop, print, mat and pictures as steps that can be undone."""

from pathlib import Path
from typing import Any

import pytest
from msgspec.structs import replace

from composer.editing.edits import EditRefused, MergeKey
from composer.editing.print_edits import (
    change_mat,
    choose_print,
    crop_anew,
    crop_picture,
    label_use,
    link_found,
    note_origin,
    take_mat_away,
)
from composer.model import Crop, EvenBorders, Mat, Project
from composer.pictures.whereabouts import find_moved, whereabouts
from composer.prints.plan import current_use
from composer.units import Length
from tests.paper.print_projects import nine
from tests.pictures.files import CHINA, real


@pytest.fixture
def project() -> Project:
    return nine()


def test_a_crop_is_changed_field_by_field_and_named_for_undo(project: Project) -> None:
    merge = MergeKey("crop", ("p5",), 1)
    edit = crop_picture(project, "p5", merge, zoom=2.0, centre=(0.2, 0.3))
    assert (edit.text, edit.merge) == ("Crop of 5 “Grandmother”", merge)
    after = edit.run(project)
    use = current_use(after.piece_by_key["p5"])
    assert use is not None and use.crop == Crop(zoom=2.0, centre=(0.2, 0.3))
    assert [a for a, b in zip(after.pieces, project.pieces, strict=True) if a is not b] == [after.piece_by_key["p5"]]
    assert crop_picture(after, "p5", zoom=2.0).run(after) is after
    assert crop_anew(after, "p5", Crop()).run(after) == project


@pytest.mark.parametrize("wrong", [{"zoom": 0.5}, {"tilt_deg": 11}, {"centre": (2.0, 0.0)}])
def test_a_crop_that_cannot_be_is_refused(project: Project, wrong: dict[str, Any]) -> None:
    with pytest.raises(EditRefused):
        crop_picture(project, "p5", **wrong).run(project)


def test_a_piece_without_a_picture_has_no_crop(project: Project) -> None:
    bare = replace(project.piece_by_key["p5"], uses=(), current_use=None)
    without = replace(project, pieces=tuple(bare if piece.key == "p5" else piece for piece in project.pieces))
    with pytest.raises(EditRefused, match="Piece 5 shows no picture yet"):
        choose_print(without, "p5", stock="8x10in").run(without)


def test_print_mat_and_label(project: Project) -> None:
    after = choose_print(project, "p5", stock="8x12in", edge="bleed").run(project)
    use = current_use(after.piece_by_key["p5"])
    assert use is not None and (use.print.stock, use.print.edge, use.print.paper) == ("8x12in", "bleed", "lustre")
    border = EvenBorders(border=Length.from_text("3 cm"))
    after = change_mat(after, "p5", borders=border).run(after)
    assert after.piece_by_key["p5"].mat == Mat(borders=border)
    assert take_mat_away(after, "p5").run(after).piece_by_key["p5"].mat is None
    after = label_use(after, "p5", 0, "summer").run(after)
    assert after.piece_by_key["p5"].uses[0].label == "summer"
    with pytest.raises(EditRefused):
        label_use(after, "p5", 1, "winter").run(after)
    after = note_origin("i505", licence="free of rights").run(after)
    assert after.picture_by_key["i505"].licence == "free of rights"
    assert note_origin("i505").run(after) is after


def test_pictures_found_again_are_linked_anew(project: Project, tmp_path: Path) -> None:
    (tmp_path / "home").mkdir()
    (tmp_path / "photos").mkdir()
    (tmp_path / "home" / "5.jpg").write_bytes(real(CHINA).read_bytes())
    folder = tmp_path / "home"
    linked = link_found({"i505": folder / "5.jpg"}, folder).run(project)
    assert linked.picture_by_key["i505"].pixels == (640, 427)
    (folder / "5.jpg").rename(tmp_path / "photos" / "moved.jpg")
    assert whereabouts(linked.picture_by_key["i505"], folder).state == "missing"
    found = find_moved(linked.pictures, tmp_path / "photos")
    edit = link_found(found, folder)
    assert edit.text == "Link 1 picture anew"
    after = edit.run(linked)
    assert after.picture_by_key["i505"].path == "../photos/moved.jpg"
    assert whereabouts(after.picture_by_key["i505"], folder).state == "here"
    with pytest.raises(EditRefused):
        link_found({"i505": tmp_path / "gone.jpg"}, folder).run(after)
