"""What is computed at each move of the hand or after each edit, against a fixed piece of plain Python.

U is the time of a plain loop of one million additions in the same process, the median of seven.
"""

from __future__ import annotations

import random
import statistics
import sys
from collections.abc import Callable
from pathlib import Path
from time import perf_counter

ROOT = Path(__file__).resolve().parent.parent.parent
if str(ROOT) not in sys.path:
    sys.path.insert(0, str(ROOT))

from composer.editing.placing import move  # noqa: E402
from composer.findings.cache import FindingsCache  # noqa: E402
from composer.geometry.rectangle import Rectangle  # noqa: E402
from composer.geometry.snapping import Neighbour, SnapSession, step  # noqa: E402
from tests.benchmarks.many_pieces import GAP_MM, SIDE_MM, wall_of_pieces  # noqa: E402
from tests.benchmarks.measuring import Row  # noqa: E402

MOVES = 400
PX_PER_MM = 0.25


def _unit() -> float:
    """Seconds of U."""

    def loop() -> None:
        total = 0
        for number in range(1_000_000):
            total += number

    return statistics.median(_seconds(loop) for _ in range(7))


def _seconds(do: Callable[[], object]) -> float:
    start = perf_counter()
    do()
    return perf_counter() - start


def _snap(count: int) -> float:
    """Median of a step of snapping among so many pieces, seconds."""
    project = wall_of_pieces(count)
    boxes = [
        Rectangle.at(place.left, place.bottom, *project.piece_by_key[place.piece].size_mm())
        for place in project.arrangement.placements
    ]
    middle = boxes[len(boxes) // 2]
    session = SnapSession.begin([Neighbour(str(at), box) for at, box in enumerate(boxes)], gap=GAP_MM)
    chance = random.Random(7)
    times = []
    x, y = middle.left, middle.bottom
    for _ in range(MOVES):
        x, y = x + chance.uniform(-12, 12), y + chance.uniform(-12, 12)
        box = Rectangle.at(x, y, SIDE_MM, SIDE_MM)
        start = perf_counter()
        _put, session = step(session, box, PX_PER_MM)
        times.append(perf_counter() - start)
    return statistics.median(times)


def _findings(count: int) -> tuple[float, float]:
    """Median of the sweep after one piece has moved, and of a sweep of everything, seconds."""
    project = wall_of_pieces(count)
    whole = statistics.median(_seconds(lambda: FindingsCache().check(project)) for _ in range(3))
    cache = FindingsCache()
    cache.check(project)
    keys = list(project.piece_by_key)
    times = []
    for at in range(15):
        project = move(project, [keys[(at * 7) % len(keys)]], 3.0, 2.0).run(project)
        times.append(_seconds(lambda now=project: cache.check(now)))  # type: ignore[misc]
    return statistics.median(times), whole


def measure() -> list[Row]:
    """The rows of this benchmark."""
    unit = _unit()
    few, many = _snap(200), _snap(1000)
    one, whole = _findings(200)
    return [
        Row("snap step among 200 / (U ÷ 100)", few * 100 / unit, 1.0, f"{few * 1e6:.0f} µs, U {unit * 1000:.0f} ms"),
        Row("snap step among 1000 / (U ÷ 100)", many * 100 / unit, 1.0, f"{many * 1e6:.0f} µs"),
        Row("snap step among 1000 / among 200", many / few, 2.5),
        Row(
            "findings after one move of 200 / U", one / unit, 0.7, f"{one * 1e3:.1f} ms, all anew {whole * 1e3:.1f} ms"
        ),
    ]


if __name__ == "__main__":
    from tests.benchmarks.measuring import print_table

    print_table(measure())
