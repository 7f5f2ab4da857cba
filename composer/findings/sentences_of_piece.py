"""Sentences about a piece by itself: its measures, its hanger, its strips, its name; and about the project."""

from composer.findings.measures import listed, measure_name, where_measured
from composer.findings.sentences_of_hanging import overload, overload_do
from composer.findings.words import Sentences, Words
from composer.texts import N_, say


def _not_measured(words: Words) -> str:
    missing = words.word("missing").split()
    if missing == ["hanger"]:
        return say("Nobody has noted yet how piece {piece} hangs.", piece=words.piece)
    if missing == ["weight"]:
        return say(
            "Piece {piece} hangs by strips but has not been weighed, so nobody knows whether they hold it.",
            piece=words.piece,
        )
    return say(
        "Piece {piece} has no hanging points yet: {measures} not measured.", piece=words.piece, measures=listed(missing)
    )


def _not_measured_do(words: Words) -> str:
    missing = words.word("missing").split()
    if missing == ["hanger"]:
        return say("Look at its back and choose wire, sawtooth, D-rings, keyholes, strips, cleat or ledge.")
    if len(missing) == 1:
        return where_measured(missing[0])
    return say("Measure {measures}; the measuring sheet shows where.", measures=listed(missing))


def _implausible(words: Words) -> str:
    return say(
        "Piece {piece}: a {what} of {typed} is unusual; most lie between {least} and {most}.",
        piece=words.piece,
        what=measure_name(words.word("what")),
        typed=words.word("typed"),
        least=words.mm("least_mm"),
        most=words.mm("most_mm"),
    )


def _implausible_do(_: Words) -> str:
    return say("Check the number and its unit; if it is right, leave it.")


def _disagrees(words: Words) -> str:
    if words.word("one_finger"):
        return say(
            "Piece {piece}: the drop of {measured} is that of one finger; on its two hooks the wire gives {computed}. "
            "The measured one is used.",
            piece=words.piece,
            measured=words.mm("measured_mm"),
            computed=words.mm("computed_mm"),
        )
    return say(
        "Piece {piece}: the drop was measured as {measured}, but wire and rings give "
        "{computed}. The measured one is used.",
        piece=words.piece,
        measured=words.mm("measured_mm"),
        computed=words.mm("computed_mm"),
    )


def _disagrees_do(words: Words) -> str:
    if words.number("hooks") == 2:
        return say("Measure the drop again, pulling the wire with two fingers as the hooks will; then wire and rings.")
    return say("Measure the drop again, pulling the wire up with one finger; then wire and rings.")


def _one_finger(words: Words) -> str:
    return say(
        "Piece {piece} hangs on two hooks {hooks} apart. Was its drop of {drop} taken with two fingers? "
        "With one finger it comes out too short.",
        piece=words.piece,
        hooks=words.mm("hooks_mm"),
        drop=words.mm("drop_mm"),
    )


def _one_finger_do(words: Words) -> str:
    return say(
        "Pull the wire with two fingers {hooks} apart and measure, or measure wire and rings.",
        hooks=words.mm("hooks_mm"),
    )


def _turned(words: Words) -> str:
    return say(
        "Piece {piece} hangs a quarter turned, but its hanger is known only for the upright piece.", piece=words.piece
    )


def _turned_do(_: Words) -> str:
    return say("Measure its back for this way up, or turn it upright.")


def _impossible(words: Words) -> str:
    why = words.word("why")
    if why == "taut":
        return say(
            "Piece {piece}: a wire of {wire} cannot rise to a hook between rings {spacing} apart.",
            piece=words.piece,
            wire=words.mm("wire_mm"),
            spacing=words.mm("spacing_mm"),
        )
    if why == "hooks-apart":
        return say(
            "Piece {piece}: two hooks {hooks} apart stand wider than the wire's rings, {spacing} apart.",
            piece=words.piece,
            hooks=words.mm("hooks_mm"),
            spacing=words.mm("spacing_mm"),
        )
    if why == "below":
        return say(
            "Piece {piece}: a drop of {drop} ends below the frame, which is {height} high.",
            piece=words.piece,
            drop=words.mm("drop_mm"),
            height=words.mm("height_mm"),
        )
    return say(
        "Piece {piece}: its hanging points would lie beside the frame, which is {width} wide.",
        piece=words.piece,
        width=words.mm("width_mm"),
    )


def _impossible_do(words: Words) -> str:
    return {
        "taut": say("Measure the wire pulled straight from ring to ring, and the rings' middles."),
        "hooks-apart": say("Set the hooks closer together."),
        "below": say("Measure the drop again, from the frame's top edge."),
    }.get(words.word("why"), say("Measure the spacing and the offset again."))


def _shows(words: Words) -> str:
    inside = words.number("below_edge_mm")
    if words.word("edge") == "side":
        if inside < 0:
            return say(
                "Piece {piece}: the wall rail stands {out} out beside the frame.",
                piece=words.piece,
                out=words.shown(-inside),
            )
        return say(
            "Piece {piece}: the wall rail ends {inside} inside the frame's edge and may show.",
            piece=words.piece,
            inside=words.shown(inside),
        )
    if inside < 0:
        return say(
            "Piece {piece}: hook or nail stand {out} above the frame.", piece=words.piece, out=words.shown(-inside)
        )
    return say(
        "Piece {piece}: hook or nail come within {inside} of the top edge and may show; {least} is our rule.",
        piece=words.piece,
        inside=words.shown(inside),
        least=words.shown(10.0),
    )


def _shows_do(words: Words) -> str:
    if words.word("edge") == "side":
        return say("Take a shorter rail.")
    return say("Set the hanger lower on the frame, shorten the wire, or take a hook with a smaller offset.")


def _strip_size_name(words: Words) -> str:
    return say(_SIZES[words.word("size")])


_SIZES = {"small": N_("small"), "medium": N_("medium"), "large": N_("large")}


def _strip_width(words: Words) -> str:
    return say(
        "Piece {piece}: the moulding's back is too narrow for {size} strips: {flat}, and {needed} are needed.",
        piece=words.piece,
        size=_strip_size_name(words),
        flat=words.mm("flat_mm"),
        needed=words.mm("needed_mm"),
    )


def _strip_width_do(words: Words) -> str:
    """The ways out that would hold this piece, from the best to the last resort, as sentences."""
    ways = []
    if words.word("smaller_size"):
        ways.append(
            say(
                "Take {size} strips: they fit and carry {capacity}.",
                size=say(_SIZES[words.word("smaller_size")]),
                capacity=words.kg("smaller_kg"),
            )
        )
    if words.word("filler_size"):
        ways.append(
            say(
                "Glue and screw a filler {width} wide flush with the moulding: {size} strips then carry {capacity}.",
                width=words.mm("filler_mm"),
                size=say(_SIZES[words.word("filler_size")]),
                capacity=words.kg("filler_kg"),
            )
        )
    ways.append(say("Hang it by nails where the wall may have holes."))
    if words.word("halves_size"):
        ways.append(
            say(
                "Last resort: strips cut lengthwise carry {capacity}, half the rating, and the packet's word is void.",
                capacity=words.kg("halves_kg"),
            )
        )
    return " ".join(ways)


def _strip_length(words: Words) -> str:
    return say(
        "Piece {piece}: {size} strips stand upright and need {needed}; the frame is {height} high.",
        piece=words.piece,
        size=_strip_size_name(words),
        needed=words.mm("needed_mm"),
        height=words.mm("height_mm"),
    )


def _strip_length_do(_: Words) -> str:
    return say("Use fewer or shorter strips, or hang it by a nail.")


def _strip_size(words: Words) -> str:
    return say(
        "Piece {piece} is larger than packets of {size} strips allow: {short} by {long}.",
        piece=words.piece,
        size=_strip_size_name(words),
        short=words.mm("largest_short_mm"),
        long=words.mm("largest_long_mm"),
    )


def _strip_size_do(_: Words) -> str:
    return say("Hang it by hooks or screws, or take a larger class of strips if your packet allows this size.")


def _overload(words: Words) -> str:
    if words.word("fixing"):
        return overload(words)
    return say(
        "Piece {piece}: {pairs} pairs of {size} strips carry {capacity}; it weighs "
        "{weight}, and {margin} times that is wanted.",
        piece=words.piece,
        pairs=words.word("pairs"),
        size=_strip_size_name(words),
        capacity=words.kg("capacity_kg"),
        weight=words.kg("weight_kg"),
        margin=f"{words.number('margin'):g}",
    )


def _overload_do(words: Words) -> str:
    if words.word("fixing"):
        return overload_do(words)
    return say("Use more pairs or a larger class, change glass to acrylic, or hang it by hooks or screws.")


def _picture(words: Words) -> str:
    return say(
        "The picture of piece {piece} is not where it was: “{path}”.", piece=words.piece, path=words.word("path")
    )


def _picture_do(_: Words) -> str:
    return say("Put the file back, find it in another folder, or choose it again.")


def _not_printable(words: Words) -> str:
    if words.finding.pieces:
        return say(
            "Paper cannot print “{signs}” in the name of piece {piece}; ▯ stands there instead, beside the number.",
            piece=words.piece,
            signs=words.word("signs"),
        )
    return say(
        "Paper cannot print “{signs}” in “{name}”; ▯ stands there instead.",
        name=words.word("name"),
        signs=words.word("signs"),
    )


def _not_printable_do(_: Words) -> str:
    return say("Give it a name in Latin, Greek or Cyrillic letters for the paper, or go by the number.")


def _unread(words: Words) -> str:
    return say("This project's own entry “{entry}” cannot be understood and is not used.", entry=words.word("entry"))


def _unread_do(_: Words) -> str:
    return say("Correct its figures, or take it out.")


SENTENCES: Sentences = {
    "not-measured": (_not_measured, _not_measured_do),
    "implausible": (_implausible, _implausible_do),
    "drop-disagrees": (_disagrees, _disagrees_do),
    "drop-one-finger": (_one_finger, _one_finger_do),
    "hanger-unknown-turned": (_turned, _turned_do),
    "hanger-impossible": (_impossible, _impossible_do),
    "hook-shows": (_shows, _shows_do),
    "strip-width": (_strip_width, _strip_width_do),
    "strip-length": (_strip_length, _strip_length_do),
    "strip-size": (_strip_size, _strip_size_do),
    "overload": (_overload, _overload_do),
    "picture-missing": (_picture, _picture_do),
    "name-not-printable": (_not_printable, _not_printable_do),
    "catalogue-unread": (_unread, _unread_do),
}
"""Code → what is said, what to do."""
