"""Sentences about what can hurt somebody, or the piece: cots, beds, seats, heat, doors, old walls, stairs."""

from composer.catalogue.names import obstacle_name, surface_name
from composer.findings.sentences_of_hanging import listed_words
from composer.findings.words import Sentences, Words
from composer.texts import N_, say, say_many


def _thing(words: Words) -> str:
    own = words.word("name")
    return say("“{name}”", name=own) if own else say("the {thing}", thing=obstacle_name(words.word("kind")))


def _cot(words: Words) -> str:
    return say(
        "Piece {piece} hangs over {thing}: a child below it cannot get away, and reaches it one day. Only paper or "
        "textile, unglazed and up to {soft}, hangs there.",
        piece=words.piece,
        thing=_thing(words),
        soft=words.kg("soft_kg"),
    )


def _cot_do(_: Words) -> str:
    return say("Hang it elsewhere.")


_REASONS = {
    "glass": N_("it has glass"),
    "glazing-unknown": N_("nobody noted whether it has glass"),
    "heavy": N_("it is heavy"),
    "weight-unknown": N_("it is not weighed"),
    "strips": N_("strips alone hold it, and packets forbid that over people"),
    "one-point": N_("one point alone holds it"),
    "close": N_("a head may touch it"),
}


def _why(words: Words) -> str:
    return listed_words([say(_REASONS[reason]) for reason in words.word("reasons").split()])


def _bed(words: Words) -> str:
    if not words.word("reasons"):
        return say(
            "Piece {piece} hangs over {thing}, where people sleep; earthquake campaigns allow soft art only.",
            piece=words.piece,
            thing=_thing(words),
        )
    return say(
        "Piece {piece} hangs over {thing}, where people sleep: {why}.",
        piece=words.piece,
        thing=_thing(words),
        why=_why(words),
    )


def _bed_do(words: Words) -> str:
    return say("Move it, or make it acrylic, up to {light}, on two closed hooks.", light=words.kg("light_kg"))


def _seat(words: Words) -> str:
    return say("Piece {piece} hangs over {thing}: {why}.", piece=words.piece, thing=_thing(words), why=_why(words))


def _seat_do(words: Words) -> str:
    if words.finding.level == "stop":
        return say("Hang it by two hooks; above {most} strips are no choice over a seat.", most=words.kg("most_kg"))
    return say(
        "Better there: acrylic, up to {light}, on two points, {above} above the back. If it stays on strips, test "
        "one first and look at them every few months.",
        light=words.kg("light_kg"),
        above=words.mm("wanted_mm"),
    )


def _heat(words: Words) -> str:
    if words.word("kind") == "tap":
        return say(
            "Piece {piece} hangs within {reach} of {thing}: splashes and steam cockle paper and rust wire.",
            piece=words.piece,
            thing=_thing(words),
            reach=words.mm("reach_mm"),
        )
    return say(
        "Piece {piece} hangs above {thing}: heat and soot harm it, and strips let go (museum conservation advice).",
        piece=words.piece,
        thing=_thing(words),
    )


def _heat_do(_: Words) -> str:
    return say("Move it aside, or hang a copy there; keep it 20 mm off the wall with bumpers.")


def _door(words: Words) -> str:
    return say(
        "Piece {piece} hangs where a door may swing back against the wall ({leaf} from its hinges).",
        piece=words.piece,
        leaf=words.mm("leaf_mm"),
    )


def _door_do(_: Words) -> str:
    return say("Open the door fully and see where its handle comes; fit a bumper for it on the floor.")


def _numbers(words: Words) -> str:
    return ", ".join(str(number) for number in words.finding.pieces)


def _coating(words: Words) -> str:
    if words.word("surface") == "textured":
        return say_many(
            "Piece {numbers} needs a hole in “{wall}”, a textured coating: in older buildings it may hold asbestos.",
            "Pieces {numbers} need holes in “{wall}”, a textured coating: in older buildings it may hold asbestos.",
            len(words.finding.pieces),
            numbers=_numbers(words),
            wall=words.word("wall"),
        )
    return say_many(
        "Piece {numbers} needs a hole in “{wall}” ({surface}): old paint may hold lead, and plaster breaks out around a nail.",
        "Pieces {numbers} need holes in “{wall}” ({surface}): old paint may hold lead, and plaster breaks out around a nail.",
        len(words.finding.pieces),
        numbers=_numbers(words),
        wall=words.word("wall"),
        surface=surface_name(words.word("surface")),
    )


def _coating_do(words: Words) -> str:
    if words.word("surface") == "textured":
        return say("Do not drill, sand or scrape it before somebody who knows has looked; ask the landlord.")
    return say("Tape the spot, drill a fine hole first, wipe the dust up wet; do not sand.")


def _two(words: Words) -> str:
    return say_many(
        "Piece {numbers} is heavier than {heavy} or longer than {long}.",
        "Pieces {numbers} are heavier than {heavy} or longer than {long}.",
        len(words.finding.pieces),
        numbers=_numbers(words),
        heavy=words.kg("heavy_kg"),
        long=words.mm("long_mm"),
    )


def _two_do(_: Words) -> str:
    return say("Two people; a step-ladder facing the wall, both feet on it, no reaching sideways (HSE, INDG455).")


def _stairs(words: Words) -> str:
    return say_many(
        "Piece {numbers} hangs over the stair of “{wall}”.",
        "Pieces {numbers} hang over the stair of “{wall}”.",
        len(words.finding.pieces),
        numbers=_numbers(words),
        wall=words.word("wall"),
    )


def _stairs_do(_: Words) -> str:
    return say("Never set a step-ladder on stairs: take a stair platform, work from the steps, and have help below.")


def _quake(words: Words) -> str:
    count = len(words.finding.pieces)
    if words.word("what") == "hook":
        return say_many(
            "Piece {numbers} weighs up to {most}: nail or hook, with putty at the corners (Earthquake Country Alliance).",
            "Pieces {numbers} weigh up to {most}: nail or hook, with putty at the corners (Earthquake Country Alliance).",
            count,
            numbers=_numbers(words),
            most=words.kg("hook_kg"),
        )
    if words.word("what") == "stud":
        return say_many(
            "Piece {numbers} weighs more than {least}: a closed hook screwed into a stud (Earthquake Country Alliance).",
            "Pieces {numbers} weigh more than {least}: closed hooks screwed into studs (Earthquake Country Alliance).",
            count,
            numbers=_numbers(words),
            least=words.kg("hook_kg"),
        )
    return say_many(
        "Piece {numbers} weighs more than {least}: professional help is advised (Earthquake Country Alliance).",
        "Pieces {numbers} weigh more than {least}: professional help is advised (Earthquake Country Alliance).",
        count,
        numbers=_numbers(words),
        least=words.kg("stud_kg"),
    )


def _quake_do(_: Words) -> str:
    return say("Closed hooks, so that nothing jumps off; nothing but soft art over beds and sofas.")


SENTENCES: Sentences = {
    "over-cot": (_cot, _cot_do),
    "over-bed": (_bed, _bed_do),
    "over-seat": (_seat, _seat_do),
    "heat-or-damp": (_heat, _heat_do),
    "door-swing": (_door, _door_do),
    "old-coating": (_coating, _coating_do),
    "two-people": (_two, _two_do),
    "over-stairs": (_stairs, _stairs_do),
    "quake-advice": (_quake, _quake_do),
}
"""Code → what is said, what to do."""
