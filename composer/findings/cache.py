"""Runs the checks and keeps each answer for as long as the very objects it was made from stay.

The project is immutable, so an unchanged record is the same object; an answer is good as long as all
that its check could read ``is`` what it read. Nothing is ever compared by content, nothing is marked
as changed by hand.
"""

from collections.abc import Callable, Iterable
from typing import Any

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
from composer.model import Finding, Key, Project, Wall

Inputs = tuple[Any, ...]
_Slot = tuple[str, Key]


class FindingsCache:
    """The checks of one open project, fast when asked again after an edit.

    Args:
        unprintable: gives the signs of a text that paper cannot print; the paper is a higher layer,
            so it is handed in.
        missing: says what became of a picture's file. It is asked every time, as files come and go
            without an edit.
    """

    def __init__(self, unprintable: Unprintable | None = None, missing: Missing | None = None) -> None:
        self._unprintable = unprintable
        self._missing = missing
        self._kept: dict[_Slot, tuple[Inputs, tuple[Finding, ...]]] = {}
        self._fresh: dict[_Slot, tuple[Inputs, tuple[Finding, ...]]] = {}
        self.runs = 0
        """How many checks were really run, over the life of this cache."""

    def check(self, project: Project, arrangement: Key | None = None) -> tuple[Finding, ...]:
        """All findings of the project for one arrangement (the current one by default).

        Sorted: stop, warn, note; then the smallest piece number; then the code.
        """
        chosen = project.current_arrangement if arrangement is None else arrangement
        self._fresh = {}
        found = list(self._all(project, chosen))
        self._kept = self._fresh
        return tuple(sorted(_overridden(found, project), key=_order))

    def _all(self, project: Project, arrangement: Key) -> Iterable[Finding]:
        known = catalogues.of(project.catalogue)
        chosen = project.arrangement_by_key[arrangement]
        places = {placement.piece: placement for placement in chosen.placements}
        walls = project.wall_by_key
        hung: dict[Key, list[Any]] = {wall.key: [] for wall in project.walls}
        for piece in project.pieces:
            placement = places.get(piece.key)
            turned = placement is not None and placement.turned
            own = (piece, turned, placement is not None, known, self._unprintable)
            yield from self._keep(("piece", piece.key), own, check_piece)
            yield from self._keep(("balance", piece.key), own[:4], check_balance)
            if placement is not None:
                hung[placement.wall].append((piece, placement))
                on_wall = (piece, placement, walls[placement.wall], known)
                yield from self._keep(("place", piece.key), on_wall, check_place)
                yield from self._keep(("hazards", piece.key), on_wall, check_hazards)
                yield from self._keep(("fixing", piece.key), (*on_wall, project.region), check_fixing)
            yield from self._pictures(project, piece.key)
            use = None if piece.current_use is None else piece.uses[piece.current_use]
            picture = None if use is None else project.picture_by_key[use.picture]
            wall = None if placement is None else walls[placement.wall]
            inside = (piece, turned, wall, picture, project.catalogue, project.money, project.units)
            yield from self._keep(("print", piece.key), inside, check_print)
        for key, pairs in hung.items():
            flat = tuple(record for pair in pairs for record in pair)
            yield from self._keep(("pairs", key), flat, lambda *_, pairs=pairs, key=key: check_pairs(pairs, key))
            beside = (chosen.gap, *flat)
            yield from self._keep(
                ("arrangement", key),
                beside,
                lambda *_, pairs=pairs, key=key: check_arrangement(pairs, float(chosen.gap.mm), key),
            )
            yield from self._wall(walls[key], pairs, flat, known, project.quake)
        yield from self._keep(("names", "w0"), (project.walls, project.title, self._unprintable), check_names)
        yield from check_catalogue(known)
        if project.money.budget is not None:
            parts = (
                part for piece in project.pieces for part in (piece, piece.key in places and places[piece.key].turned)
            )
            # What is up and stays needs nothing: then, and only then, places matter.
            places_read = chosen.placements if project.up() else None
            money = (project.catalogue, project.money, project.units, project.currency, project.as_hung)
            read = (*money, places_read, *parts)
            yield from self._keep(("budget", "w0"), read, lambda *_: check_budget(project, chosen))

    def _wall(
        self, wall: Wall, pairs: list[Any], flat: Inputs, known: catalogues.Catalogue, quake: bool
    ) -> Iterable[Finding]:
        hung = tuple((piece, placement.turned) for piece, placement in pairs)
        # Where the pieces hang does not matter here, so that moving one runs nothing.
        read = (wall, known, quake, *(part for pair in hung for part in pair))
        yield from self._keep(("wall", wall.key), read, lambda *_: check_wall(wall, hung, known, quake))
        if wall.nosing is not None:
            yield from self._keep(("stairs", wall.key), (wall, *flat), lambda *_: check_stairs(wall, pairs))

    def _pictures(self, project: Project, key: Key) -> Iterable[Finding]:
        if self._missing is None:
            return
        piece = project.piece_by_key[key]
        if piece.current_use is not None:
            picture = project.picture_by_key[piece.uses[piece.current_use].picture]
            yield from check_picture(piece, picture, self._missing)

    def _keep(self, slot: _Slot, inputs: Inputs, run: Callable[..., tuple[Finding, ...]]) -> tuple[Finding, ...]:
        kept = self._kept.get(slot)
        if kept is None or len(kept[0]) != len(inputs) or any(a is not b for a, b in zip(kept[0], inputs, strict=True)):
            self.runs += 1
            kept = (inputs, run(*inputs))
        self._fresh[slot] = kept
        return kept[1]


def _order(finding: Finding) -> tuple[Any, ...]:
    """Sort key with which the same findings always stand in the same order."""
    return (*finding.order, finding.wall or "", str(finding.values))


def _overridden(found: Iterable[Finding], project: Project) -> Iterable[Finding]:
    """The findings, a stop that the person goes on against with the reason they typed."""
    reasons: dict[tuple[str, int], str] = {}
    for override in project.overrides:
        for key in override.pieces:
            reasons[override.code, project.piece_by_key[key].number] = override.reason
    for finding in found:
        reason = next(
            (reasons[finding.code, number] for number in finding.pieces if (finding.code, number) in reasons), None
        )
        if reason is None or finding.level != "stop":
            yield finding
        else:
            yield Finding(
                level=finding.level,
                code=finding.code,
                pieces=finding.pieces,
                wall=finding.wall,
                values=finding.values,
                overridden=reason,
            )


def check(
    project: Project,
    arrangement: Key | None = None,
    *,
    unprintable: Unprintable | None = None,
    missing: Missing | None = None,
) -> tuple[Finding, ...]:
    """All findings of a project, computed afresh; see :class:`FindingsCache`."""
    return FindingsCache(unprintable, missing).check(project, arrangement)
