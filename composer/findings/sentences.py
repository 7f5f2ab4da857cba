"""What a finding says, and what to do about it, in the project's units and the person's language."""

from collections.abc import Callable

from composer.catalogue.catalogue import usual
from composer.catalogue.names import hanger_name, obstacle_name, surface_name
from composer.findings.measures import listed, measure_name, where_measured
from composer.findings.words import Words
from composer.model import Finding
from composer.texts import N_, say
from composer.units import LengthStyle


def text(finding: Finding, style: LengthStyle | None = None) -> str:
    """What is wrong, where and why, in one or two sentences; ``style`` None shows millimetres."""
    return _SENTENCES.get(finding.code, (_unknown, _nothing))[0](Words(finding, style))


def do(finding: Finding, style: LengthStyle | None = None) -> str:
    """What to do about it, as an order."""
    return _SENTENCES.get(finding.code, (_unknown, _nothing))[1](Words(finding, style))


Sentence = Callable[[Words], str]


def _unknown(words: Words) -> str:
    return say("Something is to be looked at: {code}.", code=words.finding.code)


def _nothing(words: Words) -> str:
    return say("Look at it.")


def _overlap(words: Words) -> str:
    first, second = words.finding.pieces
    return say(
        "Pieces {first} and {second} overlap by {across} across and {up} up.",
        first=first,
        second=second,
        across=words.mm("across_mm"),
        up=words.mm("up_mm"),
    )


def _overlap_do(words: Words) -> str:
    if words.number("across_mm") <= words.number("up_mm"):
        return say("Move one of them {least} sideways or more.", least=words.mm("across_mm"))
    return say("Move one of them {least} up or down or more.", least=words.mm("up_mm"))


def _outside(words: Words) -> str:
    if words.number("over_mm") <= 0:
        return say("The outline of the wall “{wall}” cuts through piece {piece}.", piece=words.piece, wall=words.word("wall"))
    return say(
        "Piece {piece} reaches {over} beyond the outline of the wall “{wall}”.",
        piece=words.piece,
        over=words.mm("over_mm"),
        wall=words.word("wall"),
    )


def _outside_do(words: Words) -> str:
    return say("Move it onto the wall, or correct the wall's outline.")


def _thing(words: Words) -> str:
    own = words.word("name")
    return say("“{name}”", name=own) if own else say("the {thing}", thing=obstacle_name(words.word("kind")))


def _on_obstacle(words: Words) -> str:
    if words.word("covered") == "yes":
        if words.word("stands") == "before":
            return say(
                "Piece {piece} hangs {reach} into {thing}, which stands before the wall and hides it.",
                piece=words.piece,
                reach=words.mm("reach_mm"),
                thing=_thing(words),
            )
        return say(
            "Piece {piece} lies {reach} over {thing}.", piece=words.piece, reach=words.mm("reach_mm"), thing=_thing(words)
        )
    if words.word("margin_is") == "usual":
        return say(
            "Piece {piece} hangs {away} from {thing}; {margin} are usually kept free. {source}",
            piece=words.piece,
            away=words.mm("away_mm"),
            thing=_thing(words),
            margin=words.mm("margin_mm"),
            source=say(usual().obstacles[words.word("kind")].source),
        )
    return say(
        "Piece {piece} hangs {away} from {thing}; you keep {margin} free.",
        piece=words.piece,
        away=words.mm("away_mm"),
        thing=_thing(words),
        margin=words.mm("margin_mm"),
    )


def _on_obstacle_do(words: Words) -> str:
    if words.word("covered") == "yes":
        return say("Move it {far} or more away from there.", far=words.shown(words.number("reach_mm") + words.number("margin_mm")))
    short = words.number("margin_mm") - words.number("away_mm")
    return say("Move it {far} away, or type another margin for {thing}.", far=words.shown(short), thing=_thing(words))


def _covers_device(words: Words) -> str:
    return say(
        "Piece {piece} covers {thing}, which must stay free to work and to be reached.", piece=words.piece, thing=_thing(words)
    )


def _covers_device_do(words: Words) -> str:
    return say("Hang nothing over it: move the piece aside.")


def _strip_wall(words: Words) -> str:
    return say(
        "Piece {piece} hangs by strips, but the wall “{wall}” is {surface}. Packets ask for smooth, sound paint or varnish.",
        piece=words.piece,
        wall=words.word("wall"),
        surface=surface_name(words.word("surface")),
    )


def _strip_wall_do(words: Words) -> str:
    return say("Hang it by a hook, or on another wall; your packet has the last word.")


def _no_holes(words: Words) -> str:
    return say(
        "Piece {piece} hangs by {hanger} and needs a hole, but the wall “{wall}” may not be drilled or nailed.",
        piece=words.piece,
        hanger=hanger_name(words.word("hanger")),
        wall=words.word("wall"),
    )


def _no_holes_do(words: Words) -> str:
    return say("Hang it by strips if they hold it, or on another wall.")


def _passage(words: Words) -> str:
    return say(
        "Piece {piece} stands {depth} out from the wall, {bottom} above the floor: in a passage somebody may walk into it "
        "(ADA 2010 Standards, 307.2, allow {most}; at home it is a caution).",
        piece=words.piece,
        depth=words.mm("depth_mm"),
        bottom=words.mm("bottom_mm"),
        most=words.shown(100.0),
    )


def _passage_do(words: Words) -> str:
    return say("Hang it where nobody passes close by.")


def _not_measured(words: Words) -> str:
    missing = words.word("missing").split()
    if missing == ["hanger"]:
        return say("Nobody has noted yet how piece {piece} hangs.", piece=words.piece)
    if missing == ["weight"]:
        return say(
            "Piece {piece} hangs by strips but has not been weighed, so nobody knows whether they hold it.", piece=words.piece
        )
    return say("Piece {piece} has no hanging points yet: {measures} not measured.", piece=words.piece, measures=listed(missing))


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


def _implausible_do(words: Words) -> str:
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
        "Piece {piece}: the drop was measured as {measured}, but wire and rings give {computed}. The measured one is used.",
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
    return say("Pull the wire with two fingers {hooks} apart and measure, or measure wire and rings.", hooks=words.mm("hooks_mm"))


def _turned(words: Words) -> str:
    return say("Piece {piece} hangs a quarter turned, but its hanger is known only for the upright piece.", piece=words.piece)


def _turned_do(words: Words) -> str:
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
            return say("Piece {piece}: the wall rail stands {out} out beside the frame.", piece=words.piece, out=words.shown(-inside))
        return say(
            "Piece {piece}: the wall rail ends {inside} inside the frame's edge and may show.",
            piece=words.piece,
            inside=words.shown(inside),
        )
    if inside < 0:
        return say("Piece {piece}: hook or nail stand {out} above the frame.", piece=words.piece, out=words.shown(-inside))
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
    return say(
        "Glue a flat pad flush with the moulding, hang it by nails, or cut the strips lengthwise: half the rating, "
        "and the packet's word no longer holds."
    )


def _strip_length(words: Words) -> str:
    return say(
        "Piece {piece}: {size} strips stand upright and need {needed}; the frame is {height} high.",
        piece=words.piece,
        size=_strip_size_name(words),
        needed=words.mm("needed_mm"),
        height=words.mm("height_mm"),
    )


def _strip_length_do(words: Words) -> str:
    return say("Use fewer or shorter strips, or hang it by a nail.")


def _strip_size(words: Words) -> str:
    return say(
        "Piece {piece} is larger than packets of {size} strips allow: {short} by {long}.",
        piece=words.piece,
        size=_strip_size_name(words),
        short=words.mm("largest_short_mm"),
        long=words.mm("largest_long_mm"),
    )


def _strip_size_do(words: Words) -> str:
    return say("Hang it by hooks or screws, or take a larger class of strips if your packet allows this size.")


def _overload(words: Words) -> str:
    return say(
        "Piece {piece}: {pairs} pairs of {size} strips carry {capacity}; it weighs {weight}, and {margin} times that is wanted.",
        piece=words.piece,
        pairs=words.word("pairs"),
        size=_strip_size_name(words),
        capacity=words.kg("capacity_kg"),
        weight=words.kg("weight_kg"),
        margin=f"{words.number('margin'):g}",
    )


def _overload_do(words: Words) -> str:
    return say("Use more pairs or a larger class, change glass to acrylic, or hang it by hooks or screws.")


def _picture(words: Words) -> str:
    return say("The picture of piece {piece} is not where it was: “{path}”.", piece=words.piece, path=words.word("path"))


def _picture_do(words: Words) -> str:
    return say("Put the file back, or choose it again.")


def _not_printable(words: Words) -> str:
    if words.finding.pieces:
        return say(
            "Paper cannot print “{signs}” in the name of piece {piece}; ▯ stands there instead, beside the number.",
            piece=words.piece,
            signs=words.word("signs"),
        )
    return say(
        "Paper cannot print “{signs}” in “{name}”; ▯ stands there instead.", name=words.word("name"), signs=words.word("signs")
    )


def _not_printable_do(words: Words) -> str:
    return say("Give it a name in Latin, Greek or Cyrillic letters for the paper, or go by the number.")


def _unread(words: Words) -> str:
    return say("This project's own entry “{entry}” cannot be understood and is not used.", entry=words.word("entry"))


def _unread_do(words: Words) -> str:
    return say("Correct its figures, or take it out.")


_SENTENCES: dict[str, tuple[Sentence, Sentence]] = {
    "overlap": (_overlap, _overlap_do),
    "outside-wall": (_outside, _outside_do),
    "on-obstacle": (_on_obstacle, _on_obstacle_do),
    "covers-device": (_covers_device, _covers_device_do),
    "strip-wall": (_strip_wall, _strip_wall_do),
    "holes-not-allowed": (_no_holes, _no_holes_do),
    "deep-in-passage": (_passage, _passage_do),
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
