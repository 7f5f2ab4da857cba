"""The warnings of a hanging list: short, by rule, only those that apply; stops first, overridden ones with the reason."""

from collections.abc import Callable, Sequence

from composer.findings import sentences
from composer.findings.cache import checked
from composer.model import Arrangement, Finding, Project, Wall
from composer.paper.figures import Figures
from composer.paper.stops import stops_among
from composer.paper.template_subject import Subject
from composer.texts import say

_LEFT_OUT = frozenset({"name-not-printable", "catalogue-unread", "not-measured", "implausible", "frame-condition"})
"""Said elsewhere: the row itself shows what is not measured."""


def minds(
    project: Project, arrangement: Arrangement, wall: Wall, chosen: Sequence[Subject], figures: Figures
) -> tuple[str, ...]:
    """What to mind on this wall, one sentence a rule with the numbers of its pieces."""
    here = {one.piece.number for one in chosen}
    found = [finding for finding in checked(project, arrangement.key) if here & set(finding.pieces)]
    lines = [say("STOP. {text}", text=stop.text) if stop.stands else stop.text for stop in stops_among(found, figures)]
    grouped: dict[str, list[Finding]] = {}
    for finding in found:
        if finding.level != "stop" and finding.code not in _LEFT_OUT:
            grouped.setdefault(finding.code, []).append(finding)
    for code, same in grouped.items():
        lines += _group(code, same, here, figures)
    if any(one.on_strips for one in chosen):
        lines.append(
            say(
                "Strips: paint at least 7 days old, wipe, press 30 s, wait 1 h, hang. Try one first. "
                "Your packet's word comes first."
            )
        )
    return tuple(lines)


def _group(code: str, same: Sequence[Finding], here: set[int], figures: Figures) -> list[str]:
    short = _SHORT.get(code)
    if short is None:
        return [sentences.text(finding, figures.style) for finding in same if finding.level == "warn"]
    numbers = sorted({number for finding in same for number in finding.pieces} & here)
    sentence = short()
    return [say("{numbers}: {sentence}", numbers=", ".join(map(str, numbers)), sentence=sentence)]


_SHORT: dict[str, Callable[[], str]] = {
    "two-people": lambda: say("heavy or long. Two people, step-ladder facing the wall, no reaching."),
    "over-seat": lambda: say("above a seat. Acrylic, light, two points, clear of heads; look after it."),
    "over-bed": lambda: say("above a bed. Two closed hooks, nothing heavy."),
    "heat-or-damp": lambda: say("by heat or damp. A copy, not an original."),
    "cable-zone": lambda: say("a cable may run there. Detector first, short nails; elsewhere, too, in doubt."),
    "old-coating": lambda: say(
        "old wall. Drill fine, wipe dust up wet, do not sand; ask before drilling a textured coat."
    ),
    "over-stairs": lambda: say("over the stair. No step-ladder on steps: stair platform, and somebody below."),
    "quake-advice": lambda: say("closed hooks; putty at the corners, over 9 kg a screw in a stud."),
    "unequal-hooks": lambda: say("its two nails are not level, as listed."),
    "pair-close": lambda: say("points close together. Level the frame on the first, or one hook and putty."),
    "leans-forward": lambda: say("leans out at the top. Thick bumpers below."),
    "hook-shows": lambda: say("hook or nail comes near the edge."),
    "one-hook-wide": lambda: say("wide on one point: turns when bumped. Putty below."),
    "hangs-askew": lambda: say("hanger off the middle. Putty below keeps it level."),
    "wire-tight": lambda: say("wire pulls hard. Lengthen it first."),
    "old-hanger": lambda: say("take the old hanger off first, strips must lie flat."),
    "stud-missed": lambda: say("no stud behind its hole."),
    "stud-there": lambda: say("a stud is behind its hole: screw, no anchor."),
    "door-swing": lambda: say("a door swings there. Open it fully first."),
    "deep-in-passage": lambda: say("stands out where people pass."),
    "strip-wall": lambda: say("strips do not hold on this wall."),
    "drop-disagrees": lambda: say("measure its drop again, wire pulled up."),
    "drop-one-finger": lambda: say("was its drop taken with two fingers?"),
    "on-obstacle": lambda: say("near something on the wall: look before nailing."),
    "covers-device": lambda: say("covers something that must stay free."),
    "holes-not-allowed": lambda: say("needs a hole, and this wall may have none."),
    "fixing-unknown": lambda: say("no such fixing is known. Choose it again."),
    "fixing-wall": lambda: say("find out what the wall is made of first."),
}
"""Rules with a short sentence for the ladder; others are said in full."""
