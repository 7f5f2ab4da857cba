"""The calls ``arrange`` and ``true-up``."""

from pathlib import Path

from msgspec.structs import replace

from composer.arranging.from_project import task_of
from composer.arranging.patterns import PATTERNS, DoesNotFit, arrange
from composer.arranging.settling import Unsuited
from composer.commandline import typed
from composer.commandline.answers import Exit, Refused
from composer.commandline.files import change
from composer.commandline.lookup import wall_named
from composer.commandline.parsing import Given
from composer.editing.arranging_edits import accept_true_up, adopt, truing_up
from composer.editing.edits import EditRefused
from composer.editing.project_edits import add_arrangement, make_current, set_gap
from composer.editing.record_edits import change_wall
from composer.model import Project, Wall
from composer.projectfile.cells import plain_text
from composer.texts import say
from composer.units import Length


def arrange_pieces(given: Given) -> int:
    """``arrange FILE --pattern P``: every piece on the floor and every unlocked one of the wall, in a pattern."""
    pattern = typed.one_of("--pattern", given.options["--pattern"], {name: name for name in PATTERNS})
    seed = _seed(given.option("--seed"))

    def make(project: Project, _: Path) -> Project:
        wall = wall_named(project, given.option("--wall"))
        after = _in_arrangement(project, given.option("--arrangement"))
        gap, eye_line = given.option("--gap"), given.option("--eye-line")
        if gap is not None:
            after = set_gap(typed.length("--gap", gap, project.units, zero=True)).run(after)
        if eye_line is not None:
            after = _with_eye_line(after, wall, typed.length("--eye-line", eye_line, project.units))
        task = task_of(after, wall.key, move_hung=given.has("--move-hung"))
        try:
            found = arrange(task, pattern, seed=seed)
        except (DoesNotFit, Unsuited) as refused:
            raise Refused(str(refused), Exit.NO) from None
        return adopt(after, wall.key, task, found).run(after)

    change(given.words[0], given.option("-o"), make)
    return Exit.DONE


def _seed(text: str | None) -> int:
    if text is None:
        return 0
    plain = text.strip()
    if not (plain.isascii() and plain.isdigit() and len(plain) <= 18):
        raise Refused(say("--seed: a whole number from 0 is expected, not “{found}”.", found=text[:40]))
    return int(plain)


def _in_arrangement(project: Project, name: str | None) -> Project:
    """The project with that arrangement current; one that is not there yet is made."""
    if name is None:
        return project
    wanted = plain_text(name).strip()
    for same in (
        [one for one in project.arrangements if one.name == wanted],
        [one for one in project.arrangements if one.name.casefold() == wanted.casefold()],
    ):
        if same:
            return make_current(project, same[0].key).run(project)
    return typed.of("--arrangement", lambda: add_arrangement(wanted).run(project))


def _with_eye_line(project: Project, wall: Wall, eye_line: Length) -> Project:
    edit = change_wall(wall.key, say("Change the eye line"), lambda record: replace(record, eye_line=eye_line))
    return typed.of("--eye-line", lambda: edit.run(project))


def true_up(given: Given) -> int:
    """``true-up FILE``: the smallest moves that make gaps exact and nearly aligned edges aligned, on every wall."""
    gap = given.option("--gap")

    def make(project: Project, _: Path) -> Project:
        after = project
        if gap is not None:
            after = set_gap(typed.length("--gap", gap, project.units, zero=True)).run(after)
        for wall in project.walls:
            try:
                answer = truing_up(after, wall.key)
            except EditRefused as refused:
                raise Refused(str(refused), Exit.NO) from None
            after = accept_true_up(after, wall.key, answer).run(after)
        return after

    change(given.words[0], given.option("-o"), make)
    return Exit.DONE
