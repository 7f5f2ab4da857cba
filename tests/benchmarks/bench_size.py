"""How what a person waits for grows with the collection: 125 to 1 000 pieces over ten walls.

A thousand pieces come with 500 obstacles and 300 linked pictures; smaller collections have as many of
each per piece. The exponent is the slope of log(time) over log(pieces), by least squares: 1 = twice
the pieces take twice the time. Times are processor time, the least of three.
"""

from __future__ import annotations

import contextlib
import io
import math
import random
import statistics
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from time import process_time

ROOT = Path(__file__).resolve().parent.parent.parent
if str(ROOT) not in sys.path:
    sys.path.insert(0, str(ROOT))

from composer.commandline.running import run  # noqa: E402
from composer.editing.placing import move  # noqa: E402
from composer.findings.cache import FindingsCache  # noqa: E402
from composer.geometry.rectangle import Rectangle  # noqa: E402
from composer.geometry.snapping import KeepOut, Neighbour, SnapSession, step  # noqa: E402
from composer.model import Project  # noqa: E402
from composer.projectfile import store  # noqa: E402
from tests.benchmarks.many_pieces import GAP_MM, SIDE_MM, many_walls  # noqa: E402
from tests.benchmarks.measuring import Row  # noqa: E402

SIZES = (125, 250, 500, 1000)
MOST_GROWTH = 1.2
FLAT = 0.25
"""A snap may take a little longer among more pieces: a search by halves, and colder memory."""
PX_PER_MM = 0.25


def growth(seconds: dict[int, float]) -> float:
    """Exponent of the power law through the times, by least squares on logarithms."""
    x, y = [math.log(size) for size in seconds], [math.log(time) for time in seconds.values()]
    return statistics.linear_regression(x, y).slope


def _least(do: Callable[[], object], runs: int = 3) -> float:
    def once() -> float:
        start = process_time()
        do()
        return process_time() - start

    return min(once() for _ in range(runs))


def _call(*words: str) -> None:
    with contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(io.StringIO()):
        code = run(list(words))
    if code > 1:
        raise RuntimeError(f"{' '.join(words)} ended with {code}")


def _jobs(file: Path, project: Project) -> dict[str, Callable[[], object]]:
    pdf = str(file.with_suffix(".pdf"))
    return {
        "open": lambda: store.load(file),
        "save": lambda: store.save(file.with_name("saved.wallwright"), project),
        "report": lambda: _call("report", str(file)),
        "check": lambda: _call("check", str(file)),
        "paper: templates": lambda: _call("paper", str(file), "templates", "-o", pdf),
        "paper: hanging list": lambda: _call("paper", str(file), "hanging-list", "-o", pdf),
        "paper: elevation": lambda: _call("paper", str(file), "elevation", "-o", pdf),
    }


def _snap(project: Project) -> float:
    """Median step of a drag on the first wall of the project."""
    wall = project.walls[0]
    hung = [place for place in project.arrangement.placements if place.wall == wall.key]
    boxes = [
        Rectangle.at(place.left, place.bottom, *project.piece_by_key[place.piece].size_mm(turned=place.turned))
        for place in hung
    ]
    things = [
        KeepOut(thing.key, Rectangle.at(thing.left, thing.bottom, thing.width.mm, thing.height.mm), 50)
        for thing in wall.obstacles
    ]
    still = [Neighbour(str(at), box) for at, box in enumerate(boxes)]
    session = SnapSession.begin(still, gap=GAP_MM, keep_outs=things)
    chance = random.Random(7)
    x, y = boxes[len(boxes) // 2][:2]
    times = []
    for _ in range(400):
        x, y = x + chance.uniform(-12, 12), y + chance.uniform(-12, 12)
        box = Rectangle.at(x, y, SIDE_MM, SIDE_MM)
        start = process_time()
        _, session = step(session, box, PX_PER_MM)
        times.append(process_time() - start)
    return statistics.median(times)


def _after_a_move(project: Project) -> float:
    """Median of the findings after one piece has moved."""
    cache = FindingsCache()
    cache.check(project)
    keys = list(project.piece_by_key)
    times = []
    for at in range(21):
        project = move(project, [keys[(at * 7) % len(keys)]], 3.0, 2.0).run(project)
        start = process_time()
        cache.check(project)
        times.append(process_time() - start)
    return statistics.median(times)


def measure() -> list[Row]:
    """The rows of this benchmark."""
    times: dict[str, dict[int, float]] = {}
    snaps, moves = dict[int, float](), dict[int, float]()
    for size in SIZES:
        with tempfile.TemporaryDirectory(prefix="wallwright-size-") as folder:
            file = Path(folder) / "many.wallwright"
            project = many_walls(size, Path(folder))
            store.save(file, project)
            for name, job in _jobs(file, project).items():
                times.setdefault(name, {})[size] = _least(job, 1 if name == "paper: templates" else 3)
            snaps[size], moves[size] = _snap(project), _after_a_move(project)
    with tempfile.TemporaryDirectory(prefix="wallwright-size-") as folder:
        few = _after_a_move(many_walls(200, Path(folder), walls=2))  # a hundred to a wall, as among 1 000
    largest = SIZES[-1]
    rows = [
        Row(f"growth of {name}", growth(seconds), MOST_GROWTH, f"{seconds[largest] * 1e3:.0f} ms at {largest}")
        for name, seconds in times.items()
    ]
    rows.append(Row("growth of a snap step", growth(snaps), FLAT, f"{snaps[largest] * 1e6:.0f} µs at {largest}"))
    rows.append(
        Row(
            "findings after one move, 1000 on 10 walls / 200 on 2",
            moves[largest] / few,
            3.0,
            f"{moves[largest] * 1e3:.1f} ms",
        )
    )
    return rows


if __name__ == "__main__":
    from tests.benchmarks.measuring import print_table

    print_table(measure())
