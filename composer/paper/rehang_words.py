"""What the rehang plan says: rows in the order of work, steps, what to know."""

from dataclasses import dataclass
from typing import Literal

from composer.catalogue import catalogue as catalogues
from composer.catalogue.names import hanger_name, name_of
from composer.costing.shown import show_numbers
from composer.hanging.weight import weight_of
from composer.model import Project
from composer.paper.figures import Figures
from composer.paper.template_subject import Datum
from composer.rehang.order import Act
from composer.rehang.plan import Change, HoleUse, RehangPlan, ShiftOffer
from composer.texts import say, say_many

Mark = Literal["again", "new", "fill", "none"]


@dataclass(frozen=True, slots=True)
class Spot:
    """One place on the wall as it is read: from the level line, above the floor, from the side."""

    line: str
    floor: str
    side: str


@dataclass(frozen=True, slots=True)
class Row:
    """One row of the table.

    Attributes:
        act: what is done.
        way: where an arrow points: the piece's move across and up, mm.
        spots: nails, or for strips the lower left corner; what is only filled is printed light.
        edges: the spots are edges, not nails.
        light: the spots are for filling.
        holes: a mark and words for each hole.
        fixing: what holds it, and its weight.
    """

    number: int
    name: str
    how: str
    act: Act
    way: tuple[float, float]
    spots: tuple[Spot, ...]
    edges: bool
    light: bool
    holes: tuple[tuple[Mark, str], ...]
    fixing: tuple[str, str]


def rows_of(project: Project, plan: RehangPlan, datum: Datum, figures: Figures) -> list[Row]:
    """The rows, one for each act."""
    changes = {change.piece.key: change for change in plan.changes}
    owners = {
        index: change.number
        for change in plan.changes
        for index, hole in enumerate(project.as_hung.holes)
        if hole.piece == change.piece.key
    }
    return [_row(project, plan, changes[work.piece], work.act, datum, figures, owners) for work in plan.work]


def _row(
    project: Project,
    plan: RehangPlan,
    change: Change,
    act: Act,
    datum: Datum,
    figures: Figures,
    owners: dict[int, int],
) -> Row:
    piece, then, now = change.piece, change.then, change.now
    place = then or now
    words = [] if place is None else [figures.size(place.width, place.height)]
    kind = None if change.hanging is None else change.hanging.kind
    if kind is not None:
        words.append(hanger_name(kind))
    way = (0.0, 0.0) if now is None or then is None else (then.left - now.left, then.bottom - now.bottom)
    leaving = act in ("down", "aside")
    spots: tuple[Spot, ...]
    holes: tuple[tuple[Mark, str], ...]
    edges = False
    if leaving:
        mine = [one for one in plan.fill if one.hole.record.piece == piece.key] if act == "down" else []
        spots = tuple(_spot(*one.hole.at, datum, figures) for one in mine)
        holes = tuple(
            ("fill", say("fill: it shows"))
            if one.behind is None
            else ("fill", say("fill, or leave: behind {number}", number=one.behind))
            for one in mine
        )
        if not mine:
            holes = (("none", _leaving_words(change, act)),)
    elif change.strips_needed and then is not None:
        edges = True
        spots = (_spot(then.left, then.bottom, datum, figures),)
        holes = (("none", say("none: new strips") if act == "up" else say("none: strips, old ones pulled")),)
    elif not change.holes:
        edges = then is not None
        spots = () if then is None else (_spot(then.left, then.bottom, datum, figures),)
        holes = (("none", say("none")),)
    else:
        spots = tuple(_spot(hole.x, hole.y, datum, figures) for hole in change.holes)
        holes = tuple(_hole(hole, change, figures, owners) for hole in change.holes)
        leaves = any(one.hole.record.piece == piece.key for one in plan.fill)
        if leaves and act != "up":
            holes = tuple((mark, say("{hole}; fill the old one", hole=words)) for mark, words in holes)
    return Row(
        piece.number,
        piece.name,
        ", ".join(words),
        act,
        way,
        spots,
        edges,
        leaving,
        holes,
        _fixing(project, plan, change, act, figures),
    )


def _leaving_words(change: Change, act: Act) -> str:
    if act == "aside":
        return say("lay it aside")
    if change.strips_lost is not None:
        return say("none: pull the strips")
    return say("its hole serves again")


def _spot(x: float, y: float, datum: Datum, figures: Figures) -> Spot:
    return Spot(figures.signed(y - datum.level_line), figures.bare(y), datum.distance(x, figures))


def _hole(hole: HoleUse, change: Change, figures: Figures, owners: dict[int, int]) -> tuple[Mark, str]:
    if hole.old is None:
        return "new", say("new")
    owner = owners.get(hole.old.index)
    off = off_words(change, figures)
    if owner == change.number:
        words = say("its own hole")
    elif owner is None:
        words = say("old hole")
    else:
        words = say("hole of {number}", number=owner)
    return "again", say("{hole}: {off}", hole=words, off=off) if off else words


def off_words(change: Change, figures: Figures) -> str:
    """How far a piece hangs off its exact place, for an old hole; empty for less than half a millimetre."""
    across, up = change.off
    parts = []
    if abs(up) >= 0.5:
        parts.append(
            say("{mm} higher", mm=figures.bare(abs(_whole(up))))
            if up > 0
            else say("{mm} lower", mm=figures.bare(abs(_whole(up))))
        )
    if abs(across) >= 0.5:
        parts.append(
            say("{mm} to the right", mm=figures.bare(abs(_whole(across))))
            if across > 0
            else say("{mm} to the left", mm=figures.bare(abs(_whole(across))))
        )
    return ", ".join(parts)


def _whole(mm: float) -> float:
    return round(mm * 2) / 2


def _fixing(project: Project, plan: RehangPlan, change: Change, act: Act, figures: Figures) -> tuple[str, str]:
    known = catalogues.of(project.catalogue)
    weight = weight_of(change.piece, known)
    kg = "" if weight is None else figures.mass(weight.kg)
    hardware = change.piece.hardware
    if act in ("down", "aside"):
        if change.strips_lost is not None:
            return say_many("{count} pair, spent", "{count} pairs, spent", change.strips_lost.pairs), kg
        return (say("keep its fixing") if hardware is not None and hardware.fixing in known.fixings else "", kg)
    if change.strips_needed and change.hanging is not None and change.hanging.strips is not None:
        size = known.strip_classes[change.hanging.strips.size]
        return say("{count} × {what}", count=change.strips_needed, what=name_of(size)), kg
    if hardware is None or hardware.fixing not in known.fixings:
        return "", kg
    return say("{count} × {what}", count=hardware.count, what=name_of(known.fixings[hardware.fixing])), kg


def summary(plan: RehangPlan, figures: Figures, level_line: float) -> str:
    """The sentence below the title."""
    before = sum(change.action != "up" for change in plan.changes)
    after = sum(change.action != "down" for change in plan.changes)
    stay = len(plan.of("stay"))
    line = figures.bare(level_line)
    if not stay:
        return say(
            "From {before} to {after} pieces. Level line {line} above floor.", before=before, after=after, line=line
        )
    return say_many(
        "From {before} to {after} pieces. Level line {line} above floor. The one that stays is not touched.",
        "From {before} to {after} pieces. Level line {line} above floor. The {count} that stay are not touched.",
        stay,
        before=before,
        after=after,
        line=line,
    )


def steps_of(plan: RehangPlan, figures: Figures, gap: float) -> list[str]:
    """The order of work, at most six steps."""
    steps = []
    if plan.templates_for:
        steps.append(
            say(
                "Print templates and locators of {numbers} only. Measure the ruler on them.",
                numbers=show_numbers(plan.templates_for),
            )
        )
    steps.append(
        say("Go down the rows: take down, move, hang. Nothing else is touched.")
        if not plan.most_aside
        else say_many(
            "Go down the rows: take down, move, hang. {count} piece lies aside at a time.",
            "Go down the rows: take down, move, hang. Up to {count} pieces lie aside at a time.",
            plan.most_aside,
        )
    )
    if plan.strips_lost:
        steps.append(pull_strips_words())
    if any(change.strips_needed for change in plan.changes):
        steps.append(say("New strips: wipe, press 30 s by the locator, wait 1 h before you hang the piece."))
    if plan.fill:
        steps.append(say("Fill the holes marked ×: pull the nail, press filler in a little proud, let it dry."))
        steps.append(say("Sand flush, dust, touch up with the wall’s own paint."))
    if len(steps) < 6:
        steps.append(
            say("Check: every gap {gap} within {slack}.", gap=figures.bare(gap), slack=figures.bare(plan.tolerance_mm))
        )
    return steps[:6]


def pull_strips_words() -> str:
    """How strips come off a wall (packets of strips; common practice)."""
    return say(
        "Pull strips: take the frame off first, hold the strip lightly, pull the tab slowly straight down along the wall."
    )


def notes_of(plan: RehangPlan, offer: ShiftOffer | None, figures: Figures) -> list[str]:
    """What to know."""
    notes = []
    for change in plan.changes:
        words = off_words(change, figures)
        if words and change.action in ("move", "up") and change.used_again:
            notes.append(
                say(
                    "{number} hangs off its exact place, so that an old hole serves: {off}.",
                    number=change.number,
                    off=words,
                )
            )
        elif words and change.action == "stay":
            notes.append(
                say("{number} stays as it hangs, off its planned place: {off}.", number=change.number, off=words)
            )
    if offer is not None:
        notes.append(
            say_many(
                "The whole arrangement shifted {shift}: {count} old hole more would serve. The program offers it.",
                "The whole arrangement shifted {shift}: {count} old holes more would serve. The program offers it.",
                offer.saves,
                shift=shift_words(offer.shift, figures),
            )
        )
    hidden = [one for one in plan.fill if one.behind is not None]
    if hidden:
        notes.append(
            say_many(
                "{count} hole to fill lies behind a piece: it may wait until you move out.",
                "{count} holes to fill lie behind pieces: they may wait until you move out.",
                len(hidden),
            )
        )
    if plan.strips_lost:
        notes.append(
            say_many(
                "Pulled strips are spent: {count} pair.", "Pulled strips are spent: {count} pairs.", plan.strips_lost
            )
        )
    return notes


def shift_words(shift: tuple[float, float], figures: Figures) -> str:
    """A shift across and up, in words."""
    across, up = shift
    parts = []
    if abs(across) >= 0.05:
        mm = figures.bare(abs(across))
        parts.append(say("{mm} to the right", mm=mm) if across > 0 else say("{mm} to the left", mm=mm))
    if abs(up) >= 0.05:
        mm = figures.bare(abs(up))
        parts.append(say("{mm} up", mm=mm) if up > 0 else say("{mm} down", mm=mm))
    return ", ".join(parts)
