"""Sentences about how a piece hangs and what holds it: wire, points, frame, fixing, studs, cables."""

from composer.catalogue.catalogue import usual
from composer.catalogue.names import name_of, surface_name
from composer.findings.measures import listed
from composer.findings.words import Sentences, Words
from composer.texts import N_, say, say_many


def _fixing_name(words: Words) -> str:
    """What the fixing is called: the person's own name for it, else the program's, else its id."""
    fixing = words.word("fixing")
    record = usual().fixings.get(fixing)
    return words.word("own_name") or (fixing if record is None else name_of(record))


def _degrees(words: Words, name: str) -> str:
    return say("{degrees}°", degrees=f"{words.number(name):.1f}")


def _wire_tight(words: Words) -> str:
    if words.word("weak") == "yes":
        return say(
            "Piece {piece}: each side of its wire is pulled with {pull}; this wire takes {usable}, a quarter of its "
            "breaking load (framing trade).",
            piece=words.piece,
            pull=words.kg("pull_kg"),
            usable=words.kg("usable_kg"),
        )
    return say(
        "Piece {piece}: its wire stands at {angle} only, so each side pulls with {times} times the weight "
        "(1 ÷ (2 × sine), any statics textbook). At 30° it is just the weight.",
        piece=words.piece,
        angle=_degrees(words, "angle_deg"),
        times=f"{words.number('times'):.1f}",
    )


def _wire_tight_do(words: Words) -> str:
    if words.word("weak") == "yes":
        return say("Put on a stronger wire, or hang the rings straight on two hooks.")
    return say(
        "Put on a wire about {wire} long between its rings, or hang the rings straight on two hooks.",
        wire=words.mm("wire_at_30_mm"),
    )


def _one_hook_wide(words: Words) -> str:
    if words.word("stays_level") == "no":
        return say(
            "Piece {piece} is {width} wide and hangs on one point; only friction holds it level, so every bump "
            "turns it (rise × depth below the rings is less than half their spacing squared).",
            piece=words.piece,
            width=words.mm("width_mm"),
        )
    return say(
        "Piece {piece} is {width} wide and hangs on one point: a bump turns it.",
        piece=words.piece,
        width=words.mm("width_mm"),
    )


def _one_hook_wide_do(_: Words) -> str:
    return say("Take two hooks about a third of its width apart and measure the drop again with two fingers.")


def _askew(words: Words) -> str:
    if words.word("side") == "right":
        return say(
            "Piece {piece} hangs from a point {off} right of its middle and tilts by {tilt}; 0.6° is seen.",
            piece=words.piece,
            off=words.mm("off_mm"),
            tilt=_degrees(words, "tilt_deg"),
        )
    return say(
        "Piece {piece} hangs from a point {off} left of its middle and tilts by {tilt}; 0.6° is seen.",
        piece=words.piece,
        off=words.mm("off_mm"),
        tilt=_degrees(words, "tilt_deg"),
    )


def _askew_do(_: Words) -> str:
    return say("Move the hanger to the middle of the frame, or hold the lower corners with a little putty.")


def _unequal(words: Words) -> str:
    if words.word("higher") == "left":
        return say(
            "Piece {piece}: its left point lies {difference} higher than its right one. The nails differ by as much; "
            "two level nails would tilt it by {tilt}.",
            piece=words.piece,
            difference=words.mm("difference_mm"),
            tilt=_degrees(words, "tilt_deg"),
        )
    return say(
        "Piece {piece}: its right point lies {difference} higher than its left one. The nails differ by as much; "
        "two level nails would tilt it by {tilt}.",
        piece=words.piece,
        difference=words.mm("difference_mm"),
        tilt=_degrees(words, "tilt_deg"),
    )


def _unequal_do(words: Words) -> str:
    if words.word("far") == "yes":
        return say("Measure both drops again: so much is seldom right. Left and right are as seen from the front.")
    return say("Mark each nail by its own number, or set the rings alike. Left and right are as seen from the front.")


def _pair_close(words: Words) -> str:
    return say(
        "Piece {piece}: its two points are only {spacing} apart, so they must be level within {limit} "
        "(0.3°, half of what is seen); a nail wanders by 1 mm.",
        piece=words.piece,
        spacing=words.mm("spacing_mm"),
        limit=say("{mm} mm", mm=f"{words.number('limit_mm'):.1f}"),
    )


def _pair_close_do(words: Words) -> str:
    if words.word("what") == "hook":
        return say("Set the hooks further apart, or take one hook and a little putty at the lower corners.")
    return say("Set one point first, level the frame on it, mark the other; a little putty keeps it.")


def _leans(words: Words) -> str:
    return say(
        "Piece {piece} will lean out by about {lean}, its bottom on the wall.",
        piece=words.piece,
        lean=_degrees(words, "lean_deg"),
    )


def _leans_do(_: Words) -> str:
    return say(
        "Stick bumpers as thick as the hook at its lower corners and set the rings higher; do not tighten the wire."
    )


def _square(words: Words) -> str:
    return say(
        "Piece {piece} is out of square: its diagonals differ by {difference}; {most} is usual.",
        piece=words.piece,
        difference=words.mm("difference_mm"),
        most=words.mm("most_mm"),
    )


def _square_do(_: Words) -> str:
    return say("Press it square and look at its joints before glass and mat are cut.")


def _condition(words: Words) -> str:
    return say(
        "Piece {piece}, noted about the frame: “{condition}”.", piece=words.piece, condition=words.word("condition")
    )


def _condition_do(_: Words) -> str:
    return say("Mend joints and hangers before it hangs; a loose joint opens under load.")


def overload(words: Words) -> str:
    """A chosen fixing that carries less than the piece weighs."""
    return say_many(
        "Piece {piece}: {count} × {fixing} carries {capacity}, and the piece weighs up to {weight}.",
        "Piece {piece}: {count} × {fixing} carry {capacity} together, and the piece weighs up to {weight}.",
        int(words.number("count")),
        piece=words.piece,
        fixing=_fixing_name(words),
        capacity=words.kg("capacity_kg"),
        weight=words.kg("weight_kg"),
    )


def overload_do(words: Words) -> str:
    """Weigh it where it is only estimated, else something stronger."""
    if words.word("measured") == "no":
        return say("Weigh it: its weight is estimated. Else choose a stronger fixing, or acrylic in place of glass.")
    return say("Choose a stronger fixing, or acrylic in place of glass. Your packet's own figure can be typed in.")


def _fixing_unknown(words: Words) -> str:
    return say(
        "Piece {piece} hangs on “{fixing}”, which the catalogue does not know.",
        piece=words.piece,
        fixing=words.word("fixing"),
    )


def _fixing_unknown_do(_: Words) -> str:
    return say("Choose its fixing again.")


def _fixing_wall(words: Words) -> str:
    if words.word("surface") == "unknown":
        return say(
            "Piece {piece} hangs on {fixing}, but nobody has noted what the wall is made of.",
            piece=words.piece,
            fixing=_fixing_name(words),
        )
    return say(
        "Piece {piece} hangs on {fixing}, which does not hold in {surface}.",
        piece=words.piece,
        fixing=_fixing_name(words),
        surface=surface_name(words.word("surface")),
    )


def _fixing_wall_do(words: Words) -> str:
    if words.word("surface") == "unknown":
        return say("Knock on it: hollow is board or lath, dull and hard is masonry; then choose what holds there.")
    return say("Choose one that holds there; the piece's card shows which.")


def _stud(words: Words) -> str:
    if words.word("known") == "no":
        return say("Piece {piece} is to hang on screws in studs, but no stud is known.", piece=words.piece)
    if words.number("missed") < words.number("points"):
        return say(
            "Piece {piece}: one of its holes misses its stud by {away}; a screw holds within 13 mm of the middle.",
            piece=words.piece,
            away=words.shown(abs(words.number("away_mm"))),
        )
    return say(
        "Piece {piece} misses the nearest stud by {away}; a screw holds within 13 mm of its middle.",
        piece=words.piece,
        away=words.shown(abs(words.number("away_mm"))),
    )


def _stud_do(words: Words) -> str:
    if words.word("known") == "no":
        return say("Find the first stud with a magnet or detector and note it and the spacing on the wall's card.")
    away = words.number("away_mm")
    if abs(away) > 150 or words.number("missed") < words.number("points"):
        return say("Take an anchor for board there, or two hooks of which one meets a stud.")
    if away > 0:
        return say("Move the group {far} to the right, or take two hooks, one on the stud.", far=words.shown(away))
    return say("Move the group {far} to the left, or take two hooks, one on the stud.", far=words.shown(-away))


def _stud_there(words: Words) -> str:
    return say(
        "Piece {piece}: there is a stud behind its hole; {fixing} opens only in a hollow.",
        piece=words.piece,
        fixing=_fixing_name(words),
    )


def _stud_there_do(_: Words) -> str:
    return say("Take a screw straight into the stud.")


_ZONES = {
    "top": N_("within 150 mm of the top of the wall"),
    "corner": N_("within 150 mm of a corner"),
    "column": N_("straight above or below a switch or socket"),
    "row": N_("level with a switch or socket"),
}


def _cable(words: Words) -> str:
    zones = listed_words([say(_ZONES[zone]) for zone in words.word("zones").split()])
    if words.word("region") == "uk":
        return say(
            "Piece {piece}: a hole lies {zones}, where cables may run (BS 7671, regulation 522.6.202; in a thin wall "
            "the other side's zones count, too).",
            piece=words.piece,
            zones=zones,
        )
    return say("Piece {piece}: a hole lies {zones}, where a cable often runs.", piece=words.piece, zones=zones)


def _cable_do(_: Words) -> str:
    return say(
        "Move it out of there, or search with a detector first and use short nails. No warning elsewhere does not "
        "mean no cable or pipe; in doubt ask an electrician."
    )


def listed_words(words: list[str]) -> str:
    """Several phrases as one."""
    if len(words) < 2:
        return "".join(words)
    return say("{first} and {last}", first=", ".join(words[:-1]), last=words[-1])


def _old_hanger(words: Words) -> str:
    return say(
        "Piece {piece} hangs by strips, but an old hanger is noted on its back ({measures}): it keeps the frame off "
        "the wall, and strips close only when it lies flat.",
        piece=words.piece,
        measures=listed(words.word("measures").split()),
    )


def _old_hanger_do(_: Words) -> str:
    return say("Take the old hanger off and empty its measures, or hang the piece by it.")


SENTENCES: Sentences = {
    "wire-tight": (_wire_tight, _wire_tight_do),
    "one-hook-wide": (_one_hook_wide, _one_hook_wide_do),
    "hangs-askew": (_askew, _askew_do),
    "unequal-hooks": (_unequal, _unequal_do),
    "pair-close": (_pair_close, _pair_close_do),
    "leans-forward": (_leans, _leans_do),
    "out-of-square": (_square, _square_do),
    "frame-condition": (_condition, _condition_do),
    "fixing-unknown": (_fixing_unknown, _fixing_unknown_do),
    "fixing-wall": (_fixing_wall, _fixing_wall_do),
    "stud-missed": (_stud, _stud_do),
    "stud-there": (_stud_there, _stud_there_do),
    "cable-zone": (_cable, _cable_do),
    "old-hanger": (_old_hanger, _old_hanger_do),
}
"""Code → what is said, what to do."""
