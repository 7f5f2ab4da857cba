"""Arranging against its bars: how good blocks and salon hangs are, how much work they and truing up cost.

python tests/benchmarks/bench_arranging.py [quick]

Times are given in U, the time of a plain Python loop of one million additions in the same process, so that
they mean the same on any computer; everything else is counted in fixed numbers of steps. A figure that
is to be high is shown by what it misses.
"""

from __future__ import annotations

import statistics
import sys
from collections.abc import Callable
from functools import partial
from pathlib import Path
from time import process_time

ROOT = Path(__file__).resolve().parent.parent.parent
if str(ROOT) not in sys.path:
    sys.path.insert(0, str(ROOT))

from composer.arranging.fitting import use_of  # noqa: E402
from composer.arranging.growth import Shape, grow  # noqa: E402
from composer.arranging.intent import relations_of, solved_again  # noqa: E402
from composer.arranging.measures import Measures, distance  # noqa: E402
from composer.arranging.measures import measure as measures_of  # noqa: E402
from composer.arranging.patterns import DoesNotFit, arrange  # noqa: E402
from composer.arranging.searching import by_size  # noqa: E402
from composer.arranging.sketches import Sketch, sketches  # noqa: E402
from composer.arranging.task import Layout, Size, Task  # noqa: E402
from composer.arranging.true_up import Hung, true_up  # noqa: E402
from tests.arranging import referee  # noqa: E402
from tests.arranging.frame_sets import frame_set  # noqa: E402
from tests.arranging.optima import OPTIMA_MM2  # noqa: E402
from tests.arranging.test_true_up import rough  # noqa: E402
from tests.arranging.walls import BIG, big, obstructed  # noqa: E402
from tests.benchmarks.measuring import Row, print_table  # noqa: E402

RUNS = 7


def seconds_of(work: Callable[[], object], runs: int = RUNS) -> float:
    """Median processor time of some runs."""
    taken = []
    for _ in range(runs):
        start = process_time()
        work()
        taken.append(process_time() - start)
    return statistics.median(taken)


def unit() -> float:
    """U: one million additions in a plain loop."""

    def loop() -> int:
        total = 0
        for number in range(1_000_000):
            total += number
        return total

    return seconds_of(loop)


def grown(task: Task) -> Layout:
    """One salon hang, built once."""
    layout = grow(task, by_size([size.width * size.height for size in task.sizes]), Shape(task.focus))
    assert layout is not None
    return layout


def times() -> list[Row]:
    """One build and one true up in U, and how they grow."""
    one = unit()
    builds = {count: seconds_of(partial(grown, big(count, 0))) / one for count in (12, 40, 60)}
    trued = {}
    for count in (12, 40):
        hung = [Hung(number, box) for number, box in enumerate(rough(grown(big(count, 0)), 15, 1), 1)]
        trued[count] = seconds_of(partial(true_up, hung, BIG, 50)) / one
    return [
        *(
            Row(f"one salon build of {count}, in U", builds[count], bar)
            for count, bar in ((12, 0.25), (40, 2.0), (60, 4.0))
        ),
        Row("the same, 60 against 12", builds[60] / builds[12], 45),
        Row("true up of 12, in U", trued[12], 0.4),
        Row("true up of 40, in U", trued[40], 5),
        Row("the same, 40 against 12", trued[40] / trued[12], 50),
    ]


def blocks(quick: bool) -> list[Row]:
    """Thirty blocks against proven optima, larger ones by their own compactness."""
    shares, exact = [], []
    for (count, seed), area in OPTIMA_MM2.items():
        if quick and seed > 1:
            continue
        figures = measures_of(arrange(big(count, seed), "block").layout, 50)
        tight = sum((size.width + 50) * (size.height + 50) for size in frame_set(count, seed)) / area
        shares.append(figures.compactness / tight)
        exact.append(figures.exact_share)
    rows = [
        Row("blocks of 5 to 9: mean share of the optimum, missing", 1 - statistics.mean(shares), 0.01),
        Row("the worst of them, missing", 1 - min(shares), 0.04),
        Row("their exact gaps, mean, missing (the area optimum has 0.85)", 1 - statistics.mean(exact), 0.15),
    ]
    for count, least in ((12, 0.92), (24, 0.92), (40, 0.88), (60, 0.86)):
        if quick and count > 24:
            continue
        found = [
            measures_of(arrange(big(count, seed), "block").layout, 50).compactness for seed in range(1 if quick else 2)
        ]
        rows.append(Row(f"block of {count}: compactness, missing", 1 - statistics.mean(found), 1 - least))
    return rows


def salon_hangs(quick: bool) -> list[Row]:
    """Each hang of 6, 12, 24 against every bar; larger ones by their means."""
    bad = 0
    total = 0
    hulls: dict[int, list[Measures]] = {}
    for count in (6, 12, 24):
        for seed in range(2 if quick else 8):
            layout = arrange(big(count, seed), "salon", seed=seed).layout
            figures = measures_of(layout, 50)
            hulls.setdefault(count, []).append(figures)
            total += 1
            bad += not (
                referee.exact_share(layout, 50) >= 0.90
                and referee.rigidity(layout, 50) >= 0.97
                and referee.uneasy_share(layout, 50) <= 0.05
                and referee.exact_parts(layout, 50) == 1
                and max(abs(share) for share in referee.balance(layout)) <= 0.05
                and referee.violations(layout, 50, BIG.corners) == []
            )
    rows = [Row(f"salon hangs of 6, 12, 24 that miss a bar, of {total}", bad, 0)]
    for count, least in ((6, 0.78), (12, 0.85), (24, 0.85)):
        hull = statistics.mean(figures.hull for figures in hulls[count])
        middle = statistics.mean(figures.big_in_the_middle for figures in hulls[count])
        saturation = statistics.mean(figures.saturation for figures in hulls[count])
        rows.append(Row(f"salon of {count}: hull, missing", 1 - hull, 1 - least))
        rows.append(Row(f"salon of {count}: big ones in the middle", middle, 0.9))
        rows.append(Row(f"salon of {count}: exact pairs, missing", 1 - saturation, 0.3 if count == 6 else 0.25))
    if not quick:
        for count in (40, 60):
            found = [measures_of(arrange(big(count, seed), "salon").layout, 50).exact_share for seed in range(2)]
            rows.append(Row(f"salon of {count}: exact gaps, missing", 1 - statistics.mean(found), 0.2))
    return rows


def _of_use(wanted: float, seed: int) -> Task:
    chosen: list[Size] = []
    for size in frame_set(80, seed):
        trial = [*chosen, Size(len(chosen) + 1, size.width, size.height)]
        if max(size.width, size.height) <= 700 and use_of(obstructed(tuple(trial))) <= wanted:
            chosen = trial
    return obstructed(tuple(chosen))


def crowded(quick: bool) -> list[Row]:
    """How many of twenty sets find no place on the wall with everything in the way."""
    rows = []
    seeds = range(5 if quick else 20)
    for use, most in ((0.45, 0), (0.6, 1), (0.75, 10)):
        failed = wrong = 0
        for seed in seeds:
            task = _of_use(use, seed)
            try:
                layout = arrange(task, "salon", seed=seed, effort=0.1).layout
            except DoesNotFit:
                failed += 1
                continue
            wrong += bool(referee.violations(layout, 50, task.room.corners, task.room.keep_outs))
        rows.append(Row(f"use {use:.2f}: sets without a place, of {len(seeds)}", failed, most * len(seeds) / 20))
        rows.append(Row(f"use {use:.2f}: hangs with a violation", wrong, 0))
    return rows


def sameness() -> list[Row]:
    """How far a changed gap or size moves an arrangement; how many sketches differ."""
    worst = 0.0
    for count in (6, 12, 24, 40):
        for seed in range(2):
            old = {f"p{number}": box for number, box in enumerate(grown(big(count, seed)), 1)}
            relations = relations_of(old, 50)
            sizes = {key: (box.width, box.height) for key, box in old.items()}
            new = solved_again(old, sizes, relations, 52, BIG)
            worst = max(worst, distance(list(old.values()), list(new.values())))
            sizes["p2"] = (sizes["p2"][0] + 3, sizes["p2"][1] + 3)
            new = solved_again(old, sizes, relations, 50, BIG)
            worst = max(worst, distance(list(old.values()), list(new.values())))
    rows = [Row("gap + 2 mm or a frame + 3 mm: distance, worst", worst, 0.01)]
    for count in (6, 9, 12):
        given = sum(isinstance(one, Sketch) for one in sketches(big(count, 1)))
        rows.append(Row(f"sketches of {count} that differ, of 12, missing", 12 - given, 7 if count > 6 else 8))
    return rows


def measure(quick: bool = False) -> list[Row]:
    """Every figure with its bar."""
    return [*times(), *blocks(quick), *salon_hangs(quick), *crowded(quick), *sameness()]


if __name__ == "__main__":
    sys.exit(0 if print_table(measure("quick" in sys.argv[1:])) else 1)
