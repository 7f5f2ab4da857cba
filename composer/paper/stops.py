"""What forbids to hang a piece so, as it stands on paper: stops that stand, and those gone on against, with the reason."""

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass

from composer.findings import sentences
from composer.findings.cache import checked
from composer.model import Arrangement, Finding, Project
from composer.paper.drawing import Drawing, line_step, lines_of
from composer.paper.figures import Figures
from composer.paper.furniture import black_label
from composer.paper.type_metrics import printable, text_width_mm
from composer.texts import say, say_many

_SIZE_PT = 9.0
_GAP_MM = 1.5


@dataclass(frozen=True, slots=True)
class Stop:
    """One stop.

    Attributes:
        text: its sentence; of one gone on against with the person's reason.
        pieces: the numbers it is about.
        stands: nobody has gone on against it.
    """

    text: str
    pieces: tuple[int, ...]
    stands: bool


def stops_among(findings: Iterable[Finding], figures: Figures) -> tuple[Stop, ...]:
    """The stops among the findings, those that stand first."""
    found = []
    for finding in findings:
        if finding.level == "stop":
            text = sentences.text(finding, figures.style)
            if finding.overridden is not None:
                text = say("{text} Done all the same: {reason}", text=text, reason=finding.overridden)
            found.append(Stop(text, finding.pieces, finding.overridden is None))
    return tuple(sorted(found, key=lambda stop: not stop.stands))


def stops_of(
    project: Project, arrangement: Arrangement, numbers: Collection[int], figures: Figures
) -> tuple[Stop, ...]:
    """The stops about any of these pieces."""
    here = set(numbers)
    return tuple(stop for stop in stops_among(checked(project, arrangement.key), figures) if here & set(stop.pieces))


def draw_stops(drawing: Drawing, stops: Sequence[Stop], left: float, top: float, width: float) -> float:
    """Each in a paragraph whose first base line is at ``top``, a black STOP before those that stand; the y below."""
    for stop in stops:
        wide = black_label(drawing, left, top, say("STOP")) + 2 if stop.stands else 0.0
        top = drawing.paragraph(left + wide, top, stop.text, width - wide, _SIZE_PT, "semibold", most=3) - _GAP_MM
    return top


def listed(stops: Sequence[Stop], width: float, high: float) -> tuple[tuple[Stop, ...], float]:
    """As many as ``high`` mm hold, and how high they are; what is left out is counted in a last one."""
    heights = [_high(stop, width) for stop in stops]
    if sum(heights) <= high:
        return tuple(stops), sum(heights)
    count, used = 0, line_step(_SIZE_PT) + _GAP_MM
    while count < len(stops) - 1 and used + heights[count] <= high:
        used += heights[count]
        count += 1
    rest = stops[count:]
    more = say_many(
        "{count} more; it stands on the hanging list.", "{count} more; they stand on the hanging list.", len(rest)
    )
    stands = any(stop.stands for stop in rest)
    return (*stops[:count], Stop(more, (), stands)), used


def _high(stop: Stop, width: float) -> float:
    wide = text_width_mm(printable(say("STOP")), _SIZE_PT, "bold") + 5 if stop.stands else 0.0
    return min(3, lines_of(stop.text, width - wide, _SIZE_PT, "semibold")) * line_step(_SIZE_PT) + _GAP_MM
