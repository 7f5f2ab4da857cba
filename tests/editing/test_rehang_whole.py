"""A rehang that was done, recorded as one step, on the sample wall that changes.

By its sheet (tests/rehang/test_sample.py): of nine old holes seven serve again, two are filled, three are new.
"""

from collections import Counter
from pathlib import Path

import pytest

from composer.editing.edits import EditRefused
from composer.editing.project_edits import delete_arrangement, make_current
from composer.editing.rehang_whole import carry_out_all
from composer.model import Project
from composer.projectfile import store
from composer.rehang.plan import plan_rehang

SAMPLE = Path(__file__).resolve().parents[2] / "samples" / "changing-wall.wallwright"
SEPTEMBER = "2026-09-05T09:00:00Z"


@pytest.fixture
def project() -> Project:
    return store.load(SAMPLE).project


def key_of(project: Project, name: str) -> str:
    return next(one.key for one in project.arrangements if one.name == name)


def states(project: Project) -> Counter[str]:
    return Counter(hole.state for hole in project.as_hung.holes)


def test_all_of_it_is_recorded_whatever_was_shown_meanwhile(project: Project) -> None:
    january, september = key_of(project, "January"), key_of(project, "September")
    project = make_current(project, january).run(project)
    plan = plan_rehang(project, project.walls[0], project.arrangement_by_key[september])
    after = carry_out_all(september, plan, SEPTEMBER).run(project)
    assert after.current_arrangement == september
    assert {after.piece_by_key[key].number for key in after.up()} == {1, 2, 3, 5, 6, 7, 8, 9, 10, 11, 12}
    assert states(after) == {"in-use": 10, "filled": 2}
    assert plan_rehang(after, after.walls[0], after.arrangement).nothing_to_do
    # 10 hangs 2 lower than it was drawn, on the nail of 6: the drawing follows the wall.
    ten = after.piece_by_number[10].key
    before = project.arrangement_by_key[september].placement_of(ten)
    now = after.arrangement.placement_of(ten)
    assert before is not None and now is not None and now.bottom == pytest.approx(before.bottom - 2)


def test_an_emptied_wall(project: Project) -> None:
    plan = plan_rehang(project, project.walls[0], None)
    edit = carry_out_all(None, plan, SEPTEMBER)
    after = edit.run(project)
    assert edit.text == "Record the wall as emptied"
    assert not after.up() and states(after) == {"filled": 9}
    assert after.arrangements == project.arrangements


def test_an_arrangement_that_is_gone_is_refused(project: Project) -> None:
    september = key_of(project, "September")
    plan = plan_rehang(project, project.walls[0], project.arrangement_by_key[september])
    gone = delete_arrangement(project, september).run(project)
    with pytest.raises(EditRefused, match="no longer there"):
        carry_out_all(september, plan, SEPTEMBER).run(gone)
