"""Runs the checks and keeps each answer for as long as the very objects it was made from stay.

The project is immutable, so an unchanged record is the same object; an answer is good as long as all
that its check could read ``is`` what it read. Nothing is ever compared by content, nothing is marked
as changed by hand.
"""

from collections.abc import Callable, Iterator
from operator import is_, itemgetter
from typing import Any, NamedTuple

from composer.catalogue import catalogue as catalogues
from composer.findings.of_arrangement import check_arrangement
from composer.findings.of_balance import check_balance
from composer.findings.of_fixing import check_fixing
from composer.findings.of_hazards import check_hazards
from composer.findings.of_money import check_budget
from composer.findings.of_pairs import check_pairs
from composer.findings.of_piece import Missing, Unprintable, check_picture, check_piece
from composer.findings.of_place import check_place
from composer.findings.of_print import check_print
from composer.findings.of_project import check_catalogue, check_names
from composer.findings.of_wall import check_stairs, check_wall
from composer.model import Arrangement, Finding, Key, Picture, Piece, Placement, Project, Wall
from composer.units import Length

Inputs = tuple[Any, ...]
_Ordered = tuple[tuple[Any, ...], Finding]
"""A finding behind the key it is sorted by."""


class _Answer(NamedTuple):
    """What one check gave, and from what."""

    inputs: Inputs
    found: tuple[_Ordered, ...]


class _Kept(NamedTuple):
    """All answers about one piece, one wall or the project, and all that any of their checks may read."""

    read: Inputs
    answers: dict[str, _Answer]
    found: tuple[_Ordered, ...]


_NOTHING_KEPT = _Kept((), {}, ())


class _Checks:
    """The checks of one piece, wall or project: each kept answer that is still good is taken again."""

    def __init__(self, before: dict[str, _Answer]) -> None:
        self._before = before
        self.answers: dict[str, _Answer] = {}
        self.runs = 0

    def keep(self, name: str, inputs: Inputs, run: Callable[..., tuple[Finding, ...]]) -> None:
        answer = self._before.get(name)
        if answer is None or not _same(answer.inputs, inputs):
            self.runs += 1
            answer = _Answer(inputs, tuple((_order(finding), finding) for finding in run(*inputs)))
        self.answers[name] = answer


class FindingsCache:
    """The checks of one open project, fast when asked again after an edit.

    What is read about a piece or a wall is compared as a whole first; only where anything is another
    object are its checks looked at one by one.

    Args:
        unprintable: gives the signs of a text that paper cannot print; the paper is a higher layer,
            so it is handed in.
        missing: says what became of a picture's file. It is asked every time, as files come and go
            without an edit.
    """

    def __init__(self, unprintable: Unprintable | None = None, missing: Missing | None = None) -> None:
        self._unprintable = unprintable
        self._missing = missing
        self._kept: dict[Key, _Kept] = {}
        self._common: Inputs = ()
        self.runs = 0
        """How many checks were really run, over the life of this cache."""

    def check(self, project: Project, arrangement: Key | None = None) -> tuple[Finding, ...]:
        """All findings of the project for one arrangement (the current one by default).

        Sorted: stop, warn, note; then the smallest piece number; then the code.
        """
        chosen = project.current_arrangement if arrangement is None else arrangement
        fresh: dict[Key, _Kept] = {}
        found = list(self._all(project, project.arrangement_by_key[chosen], fresh))
        self._kept = fresh
        found = _overridden(found, project)
        # Pieces come by their numbers, so that each level is nearly in order, which sorting makes use of.
        levels: tuple[list[_Ordered], ...] = ([], [], [])
        for one in found:
            levels[one[0][0]].append(one)
        return tuple(finding for level in levels for _, finding in sorted(level, key=itemgetter(0)))

    def _all(self, project: Project, chosen: Arrangement, fresh: dict[Key, _Kept]) -> Iterator[_Ordered]:
        known = catalogues.of(project.catalogue)
        common: Inputs = (known, project.catalogue, project.money, project.units, project.region, self._unprintable)
        if _same(common, self._common):
            common = self._common
        self._common = common
        places = {placement.piece: placement for placement in chosen.placements}
        walls = project.wall_by_key
        pictures = project.picture_by_key
        hung: dict[Key, list[Any]] = {wall.key: [] for wall in project.walls}
        kept_before, nothing = self._kept, _NOTHING_KEPT
        for piece in project.pieces:
            key = piece.key
            placement = places.get(key)
            wall = None
            if placement is not None:
                wall = walls[placement.wall]
                hung[placement.wall] += (piece, placement)
            picture = None if piece.current_use is None else pictures[piece.uses[piece.current_use].picture]
            read = (piece, placement, wall, picture, common)
            kept = kept_before.get(key, nothing)
            if not _same(kept.read, read):
                kept = self._run(read, kept, _piece_checks)
            fresh[key] = kept
            yield from kept.found
            if self._missing is not None and picture is not None:
                yield from ((_order(one), one) for one in check_picture(piece, picture, self._missing))
        for key, flat in hung.items():
            read = (walls[key], chosen.gap, project.quake, common, *flat)
            kept = kept_before.get(key, nothing)
            if not _same(kept.read, read):
                kept = self._run(read, kept, _wall_checks)
            fresh[key] = kept
            yield from kept.found
        yield from self._whole(project, chosen, known, fresh)

    def _run(self, read: Inputs, kept: _Kept, checks: Callable[..., None]) -> _Kept:
        answers = _Checks(kept.answers)
        checks(answers, *read)
        self.runs += answers.runs
        return _Kept(read, answers.answers, tuple(one for each in answers.answers.values() for one in each.found))

    def _whole(
        self, project: Project, chosen: Arrangement, known: catalogues.Catalogue, fresh: dict[Key, _Kept]
    ) -> Iterator[_Ordered]:
        """What is about the project itself."""
        answers = _Checks(self._kept.get("", _NOTHING_KEPT).answers)
        answers.keep("names", (project.walls, project.title, self._unprintable), check_names)
        if project.money.budget is not None:
            places = {placement.piece: placement for placement in chosen.placements}
            parts = (
                part for piece in project.pieces for part in (piece, piece.key in places and places[piece.key].turned)
            )
            # What is up and stays needs nothing: then, and only then, places matter.
            places_read = chosen.placements if project.up() else None
            money = (project.catalogue, project.money, project.units, project.currency, project.as_hung)
            answers.keep("budget", (*money, places_read, *parts), lambda *_: check_budget(project, chosen))
        self.runs += answers.runs
        fresh[""] = _Kept((), answers.answers, ())
        yield from (one for each in answers.answers.values() for one in each.found)
        yield from ((_order(one), one) for one in check_catalogue(known))


def _piece_checks(
    answers: _Checks,
    piece: Piece,
    placement: Placement | None,
    wall: Wall | None,
    picture: Picture | None,
    common: Inputs,
) -> None:
    known, notes, money, units, region, unprintable = common
    turned = placement is not None and placement.turned
    answers.keep("piece", (piece, turned, placement is not None, known, unprintable), check_piece)
    answers.keep("balance", (piece, turned, placement is not None, known), check_balance)
    if placement is not None:
        on_wall = (piece, placement, wall, known)
        answers.keep("place", on_wall, check_place)
        answers.keep("hazards", on_wall, check_hazards)
        answers.keep("fixing", (*on_wall, region), check_fixing)
    answers.keep("print", (piece, turned, wall, picture, notes, money, units), check_print)


def _wall_checks(answers: _Checks, wall: Wall, gap: Length, quake: bool, common: Inputs, *flat: Any) -> None:
    known, key = common[0], wall.key
    pairs: list[tuple[Piece, Placement]] = list(zip(flat[::2], flat[1::2], strict=True))
    answers.keep("pairs", flat, lambda *_: check_pairs(pairs, key))
    answers.keep("arrangement", (gap, *flat), lambda *_: check_arrangement(pairs, float(gap.mm), key))
    hung = tuple((piece, placement.turned) for piece, placement in pairs)
    # Where the pieces hang does not matter here, so that moving one runs nothing.
    read = (wall, known, quake, *(part for pair in hung for part in pair))
    answers.keep("wall", read, lambda *_: check_wall(wall, hung, known, quake))
    if wall.nosing is not None:
        answers.keep("stairs", (wall, *flat), lambda *_: check_stairs(wall, pairs))


def _same(kept: Inputs, inputs: Inputs) -> bool:
    """Whether both are the very same objects, one by one."""
    return len(kept) == len(inputs) and all(map(is_, kept, inputs))


def _order(finding: Finding) -> tuple[Any, ...]:
    """Sort key with which the same findings always stand in the same order."""
    return (*finding.order, finding.wall or "", str(finding.values))


def _overridden(found: list[_Ordered], project: Project) -> list[_Ordered]:
    """The findings, a stop that the person goes on against with the reason they typed."""
    if not project.overrides:
        return found
    reasons: dict[tuple[str, int], str] = {}
    for override in project.overrides:
        for key in override.pieces:
            reasons[override.code, project.piece_by_key[key].number] = override.reason
    result = []
    for order, finding in found:
        reason = next(
            (reasons[finding.code, number] for number in finding.pieces if (finding.code, number) in reasons), None
        )
        if reason is not None and finding.level == "stop":
            finding = Finding(
                level=finding.level,
                code=finding.code,
                pieces=finding.pieces,
                wall=finding.wall,
                values=finding.values,
                overridden=reason,
            )
        result.append((order, finding))
    return result


def check(
    project: Project,
    arrangement: Key | None = None,
    *,
    unprintable: Unprintable | None = None,
    missing: Missing | None = None,
) -> tuple[Finding, ...]:
    """All findings of a project, computed afresh; see :class:`FindingsCache`."""
    return FindingsCache(unprintable, missing).check(project, arrangement)


_last_checked: tuple[Project, Key, tuple[Finding, ...]] | None = None


def checked(project: Project, arrangement: Key) -> tuple[Finding, ...]:
    """The same as :func:`check`, worked out once for the very same project: each sheet of many asks for it."""
    global _last_checked
    last = _last_checked
    if last is None or last[0] is not project or last[1] != arrangement:
        last = _last_checked = (project, arrangement, check(project, arrangement))
    return last[2]
