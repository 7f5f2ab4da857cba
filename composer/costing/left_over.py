"""What would still hang with what is left over: strips by their rating, fixings by their load, boards by their size."""

from dataclasses import dataclass
from typing import Literal

from composer.catalogue import catalogue as catalogues
from composer.costing.costs import Costs
from composer.model import Project


@dataclass(frozen=True, slots=True)
class StillHangs:
    """What the rest of one line is good for.

    Attributes:
        group: strips, fixing or board.
        item, name: the thing.
        count: how many are left.
        pieces: how many more pieces that is.
        carries_kg: the heaviest each of them may be, without glass for strips; None = unknown.
        pairs: pairs of strips for that piece.
        sizes: of what is left of boards, mm.
    """

    group: Literal["strips", "fixing", "board"]
    item: str
    name: str
    count: int
    pieces: int
    carries_kg: float | None = None
    pairs: int = 0
    rating_kg: float = 0.0
    sizes: tuple[tuple[float, float], ...] = ()


def still_hangs(project: Project, costs: Costs) -> tuple[StillHangs, ...]:
    """What is left over after the shopping, and what it would hang.

    Strips: two or four pairs under one piece, rating × pairs ÷ 1.5 (the margin without glass). A
    single pair hangs nothing.
    """
    known = catalogues.of(project.catalogue)
    found: list[StillHangs] = []
    for line in costs.lines:
        left = line.left_over
        if line.group == "strips":
            strip = next((one for one in known.strip_classes.values() if one.id == line.need.item), None)
            if strip is None or left < 2:
                continue
            pairs = 4 if left >= 4 and strip.most_pairs >= 4 else 2
            carries = strip.rating_kg * pairs / known.strip_rules.margin
            found.append(
                StillHangs("strips", strip.id, line.name, left, left // pairs, carries, pairs, strip.rating_kg)
            )
        elif line.group == "fixing" and left:
            fixing = known.fixings.get(line.need.item)
            load = None if fixing is None else fixing.load_kg
            found.append(StillHangs("fixing", line.need.item, line.name, left, left, load))
        elif line.group == "board" and line.need.left_sizes:
            sizes = line.need.left_sizes
            found.append(StillHangs("board", line.need.item, line.name, len(sizes), len(sizes), sizes=sizes))
    return tuple(found)
