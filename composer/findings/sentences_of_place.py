"""Sentences about where a piece hangs: neighbours, outline, obstacles, the wall itself."""

from composer.catalogue.catalogue import usual
from composer.catalogue.names import hanger_name, obstacle_name, surface_name
from composer.findings.words import Sentences, Words
from composer.texts import say


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
        return say(
            "The outline of the wall “{wall}” cuts through piece {piece}.", piece=words.piece, wall=words.word("wall")
        )
    return say(
        "Piece {piece} reaches {over} beyond the outline of the wall “{wall}”.",
        piece=words.piece,
        over=words.mm("over_mm"),
        wall=words.word("wall"),
    )


def _outside_do(_: Words) -> str:
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
            "Piece {piece} lies {reach} over {thing}.",
            piece=words.piece,
            reach=words.mm("reach_mm"),
            thing=_thing(words),
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
        return say(
            "Move it {far} or more away from there.",
            far=words.shown(words.number("reach_mm") + words.number("margin_mm")),
        )
    short = words.number("margin_mm") - words.number("away_mm")
    return say("Move it {far} away, or type another margin for {thing}.", far=words.shown(short), thing=_thing(words))


def _covers_device(words: Words) -> str:
    return say(
        "Piece {piece} covers {thing}, which must stay free to work and to be reached.",
        piece=words.piece,
        thing=_thing(words),
    )


def _covers_device_do(_: Words) -> str:
    return say("Hang nothing over it: move the piece aside.")


def _strip_wall(words: Words) -> str:
    return say(
        "Piece {piece} hangs by strips, but the wall “{wall}” is {surface}. Packets ask "
        "for smooth, sound paint or varnish.",
        piece=words.piece,
        wall=words.word("wall"),
        surface=surface_name(words.word("surface")),
    )


def _strip_wall_do(_: Words) -> str:
    return say("Hang it by a hook, or on another wall; your packet has the last word.")


def _no_holes(words: Words) -> str:
    return say(
        "Piece {piece} hangs by {hanger} and needs a hole, but the wall “{wall}” may not be drilled or nailed.",
        piece=words.piece,
        hanger=hanger_name(words.word("hanger")),
        wall=words.word("wall"),
    )


def _no_holes_do(_: Words) -> str:
    return say("Hang it by strips if they hold it, from a picture rail if there is one, or on another wall.")


def _passage(words: Words) -> str:
    return say(
        "Piece {piece} stands {depth} out from the wall, {bottom} above the floor: in a "
        "passage somebody may walk into it "
        "(ADA 2010 Standards, 307.2, allow {most}; at home it is a caution).",
        piece=words.piece,
        depth=words.mm("depth_mm"),
        bottom=words.mm("bottom_mm"),
        most=words.shown(100.0),
    )


def _passage_do(_: Words) -> str:
    return say("Hang it where nobody passes close by.")


SENTENCES: Sentences = {
    "overlap": (_overlap, _overlap_do),
    "outside-wall": (_outside, _outside_do),
    "on-obstacle": (_on_obstacle, _on_obstacle_do),
    "covers-device": (_covers_device, _covers_device_do),
    "strip-wall": (_strip_wall, _strip_wall_do),
    "holes-not-allowed": (_no_holes, _no_holes_do),
    "deep-in-passage": (_passage, _passage_do),
}
"""Code → what is said, what to do."""
