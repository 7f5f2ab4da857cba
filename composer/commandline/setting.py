"""The call ``set``: keys and what they change."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, get_args

from msgspec.structs import replace

from composer.commandline import catalogue_keys, piece_keys, typed
from composer.commandline.answers import Exit, Refused
from composer.commandline.files import change
from composer.commandline.lookup import piece_named, wall_named
from composer.commandline.near import suggestion
from composer.commandline.parsing import Given
from composer.editing.piece_edits import override, replace_piece
from composer.editing.project_edits import change_project_fields, set_budget, set_gap
from composer.editing.wall_edits import change_wall_fields, set_outline
from composer.model import Key, Project, WallEnd
from composer.model.project import USUAL_EYE_LINE
from composer.model.wall import Surface
from composer.projectfile import columns, inventory
from composer.projectfile.cells import BadCell, folded, plain_text
from composer.projectfile.columns import COLUMNS
from composer.texts import say
from composer.units import Length, read_money


@dataclass(frozen=True, slots=True)
class _Asked:
    """One KEY=VALUE and the wall named beside it."""

    key: str
    value: str
    wall: Key

    def length(self, project: Project, *, zero: bool = False) -> Length:
        return typed.bare_length(self.value, project.units, zero=zero)

    def one_of(self, choices: Mapping[str, Any]) -> Any:
        return typed.choice(self.value, choices)


_Setter = Callable[[Project, _Asked], Project]


def set_values(given: Given) -> int:
    """``set FILE KEY=VALUE…``: all of them or none."""

    def make(project: Project, _: Path) -> Project:
        return _all_set(project, _in_order(given.rest, wall_named(project, given.option("--wall")).key))

    change(given.words[0], given.option("-o"), make)
    return Exit.DONE


def _all_set(project: Project, waiting: list[_Asked]) -> Project:
    """All of them, in the order given; one that is refused may need one that comes after it, and waits for that."""
    while waiting:
        refused: list[tuple[_Asked, Refused]] = []
        for asked in waiting:
            try:
                setter = _setter(asked.key)
                project = typed.of(asked.key, lambda asked=asked, setter=setter: setter(project, asked))  # type: ignore[misc] # noqa: B023
            except Refused as error:
                refused.append((asked, error))
        if len(refused) == len(waiting):
            raise refused[0][1]
        waiting = [asked for asked, _ in refused]
    return project


def _in_order(words: tuple[str, ...], wall: Key) -> list[_Asked]:
    """As given; an outline goes first, because the wall's width and height must fit it."""
    found: dict[str, _Asked] = {}
    for word in words:
        key, equals, value = word.partition("=")
        key = key.strip()
        if not equals or not key:
            raise Refused(say("“{found}” is not of the form KEY=VALUE.", found=word[:60]))
        if key in found:
            raise Refused(say("{key} is given twice.", key=key[:60]))
        found[key] = _Asked(key, value.strip(), wall)
    return sorted(found.values(), key=lambda asked: asked.key != "wall.outline")


def _setter(key: str) -> _Setter:
    if key in _SETTERS:
        return _SETTERS[key]
    parts = key.split(".")
    if len(parts) > 2 and parts[0] == "piece":
        return _set_piece
    if len(parts) > 2 and parts[0] == "override":
        return _set_override
    if len(parts) > 2 and parts[0] == "packet":
        return lambda project, asked: catalogue_keys.set_packet(project, asked.key, asked.value)
    if len(parts) > 3 and parts[0] == "own":
        return lambda project, asked: catalogue_keys.set_own(project, asked.key, asked.value)
    known = [*_SETTERS, "piece.N.COLUMN", "piece.N.fixing", "override.CODE.N", "packet.ENTRY.FIGURE"]
    raise Refused(say("there is no key “{key}”. {hint}", key=key[:60], hint=suggestion(key, known)))


# --- The project and its current arrangement ---------------------------------------------------------


def _field(name: str, choices: Mapping[str, Any] | None = None) -> _Setter:
    def set_field(project: Project, asked: _Asked) -> Project:
        fields: dict[str, Any] = {name: plain_text(asked.value) if choices is None else asked.one_of(choices)}
        return change_project_fields(asked.key, **fields).run(project)

    return set_field


def _set_budget(project: Project, asked: _Asked) -> Project:
    return set_budget(read_money(asked.value) if asked.value else None).run(project)


def _set_gap(project: Project, asked: _Asked) -> Project:
    return set_gap(asked.length(project, zero=True)).run(project)


# --- A wall --------------------------------------------------------------------------------------------


def _wall_field(name: str, choices: Mapping[str, Any]) -> _Setter:
    def set_field(project: Project, asked: _Asked) -> Project:
        return change_wall_fields(project, asked.wall, **{name: asked.one_of(choices)}).run(project)

    return set_field


def _wall_length(name: str, *, needed: bool = False, zero: bool = False) -> _Setter:
    def set_field(project: Project, asked: _Asked) -> Project:
        length = None if not asked.value and not needed else asked.length(project, zero=zero)
        fields: dict[str, Any] = {name: length}
        return change_wall_fields(project, asked.wall, **fields).run(project)

    return set_field


def _set_wall_name(project: Project, asked: _Asked) -> Project:
    return change_wall_fields(project, asked.wall, name=plain_text(asked.value)).run(project)


def _set_eye_line(project: Project, asked: _Asked) -> Project:
    usual = Length.from_text(USUAL_EYE_LINE[project.units])
    eye_line = asked.length(project) if asked.value else usual
    return change_wall_fields(project, asked.wall, eye_line=eye_line).run(project)


def _set_outline(project: Project, asked: _Asked) -> Project:
    corners = _points(asked.value) if asked.value else None
    return set_outline(project, asked.wall, corners).run(project)


def _set_nosing(project: Project, asked: _Asked) -> Project:
    points = _points(asked.value) if asked.value else None
    if points is not None and len(points) != 2:
        raise Refused(say("two points “x,y x,y” in mm are expected, not {count}.", count=len(points)))
    return change_wall_fields(project, asked.wall, nosing=points and tuple(points)).run(project)


def _points(text: str) -> list[tuple[float, float]]:
    from composer.model import position

    points = []
    for word in text.split():
        x, comma, y = word.partition(",")
        try:
            points.append((position(float(x)), position(float(y))))
        except ValueError:
            comma = ""
        if not comma:
            raise Refused(say("“{found}” is not a point “x,y” in mm.", found=word[:40]))
    return points


def _set_datum(project: Project, asked: _Asked) -> Project:
    datum = next(wall for wall in project.walls if wall.key == asked.wall).datum
    if asked.value.casefold() == "floor":
        made = replace(datum, height="floor", line=None)
    else:
        made = replace(datum, height="line", line=asked.length(project))
    return change_wall_fields(project, asked.wall, datum=made).run(project)


# --- A piece -------------------------------------------------------------------------------------------


def _set_piece(project: Project, asked: _Asked) -> Project:
    _, _, rest = asked.key.partition(".")
    name, _, column = rest.rpartition(".")
    piece = piece_named(project, name)
    if folded(column) in piece_keys.SETTERS:
        return piece_keys.SETTERS[folded(column)](project, piece.key, asked.value)
    if folded(column) not in COLUMNS:
        known = [*(known.name for known in COLUMNS.values()), *piece_keys.NAMES]
        raise Refused(say("there is no column “{column}”. {hint}", column=column[:40], hint=suggestion(column, known)))
    if folded(column) == "picture":
        return inventory.set_picture(project, piece.key, plain_text(asked.value))
    try:
        made = columns.set_column(piece, column, asked.value, project.units, catalogue=inventory.catalogue_for(project))
    except BadCell as refused:
        raise Refused(str(refused)) from None
    return project if made == piece else replace_piece(project, made)


def _set_override(project: Project, asked: _Asked) -> Project:
    from composer.findings.cache import check

    _, code, name = asked.key.split(".", 2)
    piece = piece_named(project, name)
    reason = plain_text(asked.value)
    if reason:
        stops = [
            finding.code for finding in check(project) if finding.level == "stop" and piece.number in finding.pieces
        ]
        if code not in stops:
            hint = suggestion(code, stops)
            raise Refused(
                say("piece {number} has no stop “{code}”. {hint}", number=piece.number, code=code[:40], hint=hint)
            )
    when = datetime.now(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
    return override(project, piece.key, code, reason, when).run(project)


_SURFACES = {name: name for name in get_args(Surface)}
_ENDS = {name: name for name in get_args(WallEnd)}
_REGIONS = {name: name for name in ("none", "uk", "us")}

_SETTERS: dict[str, _Setter] = {
    "title": _field("title"),
    "units": _field("units", typed.UNITS),
    "currency": _field("currency"),
    "region": _field("region", _REGIONS),
    "quake": _field("quake", typed.YES_NO),
    "budget": _set_budget,
    "gap": _set_gap,
    "wall.name": _set_wall_name,
    "wall.width": _wall_length("width", needed=True),
    "wall.height": _wall_length("height", needed=True),
    "wall.outline": _set_outline,
    "wall.kind": _wall_field("surface", _SURFACES),
    "wall.no-holes": _wall_field("no_holes", typed.YES_NO),
    "wall.left-end": _wall_field("left_end", _ENDS),
    "wall.right-end": _wall_field("right_end", _ENDS),
    "wall.eye-line": _set_eye_line,
    "wall.viewing-distance": _wall_length("viewing_distance"),
    "wall.stud-first": _wall_length("stud_first"),
    "wall.stud-spacing": _wall_length("stud_spacing"),
    "wall.nosing": _set_nosing,
    "wall.datum": _set_datum,
}
