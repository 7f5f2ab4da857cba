"""A rehang that has been done, whatever arrangement was shown meanwhile: one step of undo."""

from __future__ import annotations

import msgspec

from composer.editing.edits import Edit
from composer.editing.project_edits import arrangement_of
from composer.editing.rehang_edits import carry_out, take_places
from composer.model import Instant, Key, Project
from composer.rehang.plan import RehangPlan
from composer.texts import say


def carry_out_all(arrangement: Key | None, plan: RehangPlan, when: Instant) -> Edit:
    """The plan's arrangement becomes the current one, its pieces take the plan's places, and all is recorded.

    Args:
        arrangement: to which the plan goes; None = to the empty wall.
        plan: what has been done.
        when: the moment, UTC.

    Raises (when run):
        EditRefused: the arrangement is gone, or a locked piece would move.
    """

    def run(project: Project) -> Project:
        if arrangement is not None:
            arrangement_of(project, arrangement)
            project = take_places(project, arrangement, plan).run(project)
            if project.current_arrangement != arrangement:
                project = msgspec.structs.replace(project, current_arrangement=arrangement)
        return carry_out(plan, when).run(project)

    text = say("Record the wall as emptied") if plan.empties else say("Record the rehang as done")
    return Edit(text, run)
