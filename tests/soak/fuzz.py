"""Feeds mutated inputs to every reader: no traceback, no hang, no monstrous memory.

python tests/soak/fuzz.py                    200 000 inputs over all targets (about ten minutes)
python tests/soak/fuzz.py --inputs 5000      fewer
python tests/soak/fuzz.py --target table     one of them; may be given several times
python tests/soak/fuzz.py --seed 7           another series; each is repeatable
python tests/soak/fuzz.py --guided           by coverage, with atheris (extra "fuzz"); one target, until stopped

A find is written to tests/corpus/TARGET-DIGEST, which the suite replays for ever.
"""

import argparse
import hashlib
import random
import signal
import sys
import time
import traceback
from pathlib import Path
from types import FrameType

ROOT = Path(__file__).resolve().parents[2]
sys.path.insert(0, str(ROOT))

from tests.soak.mutations import mutated  # noqa: E402

CORPUS = ROOT / "tests" / "corpus"
WATCHDOG_S = 60
MOST_KB = 500 * 1024
SHARES = {
    "quantity": 0.3,
    "typed_line": 0.1,
    "table": 0.15,
    "short_table": 0.05,
    "project_file": 0.25,
    "packed_copy": 0.05,
    "picture": 0.1,
}


class Hang(Exception):
    """One input took longer than the watchdog waits."""


def _alarm(_: int, __: FrameType | None) -> None:
    raise Hang(f"more than {WATCHDOG_S} s")


def memory_kb() -> int:
    """The most memory this process ever held, kB (POSIX getrusage; 0 elsewhere)."""
    try:
        import resource
    except ImportError:
        return 0
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return most // 1024 if sys.platform == "darwin" else most


def run(name: str, inputs: int, seed: int) -> tuple[int, int, float]:
    """Feeds one target; how many inputs it took, how many were finds, the longest time of one in seconds."""
    from tests.soak.targets import TARGETS, seeds_of

    target, seeds = TARGETS[name], seeds_of(name)
    for data in seeds:
        target(data)  # what is whole must pass
    chance, taken, finds, longest = random.Random(f"{seed} {name}"), 0, 0, 0.0
    can_watch = hasattr(signal, "SIGALRM")
    if can_watch:
        signal.signal(signal.SIGALRM, _alarm)
    for _ in range(inputs):
        data = mutated(chance, seeds)
        before, start = memory_kb(), time.perf_counter()
        if can_watch:
            signal.alarm(WATCHDOG_S)
        try:
            taken += target(data)
            if memory_kb() > MOST_KB >= before:
                raise MemoryError(f"more than {MOST_KB // 1024} MB")
        except BaseException as found:
            if isinstance(found, KeyboardInterrupt):
                raise
            finds += 1
            keep(name, data, found)
        finally:
            if can_watch:
                signal.alarm(0)
        longest = max(longest, time.perf_counter() - start)
    return taken, finds, longest


def keep(name: str, data: bytes, found: BaseException) -> None:
    """Writes a find to the corpus and shows where it happened."""
    CORPUS.mkdir(exist_ok=True)
    path = CORPUS / f"{name}-{hashlib.sha256(data).hexdigest()[:12]}"
    path.write_bytes(data)
    last = traceback.extract_tb(found.__traceback__)[-1]
    print(f"  find {path.name}: {type(found).__name__}: {str(found)[:120]} ({Path(last.filename).name}:{last.lineno})")


def guided(name: str) -> None:
    """Fuzzes one target by coverage until stopped, mutating as the plain loop does."""
    import atheris

    with atheris.instrument_imports(include=["composer"]):  # so nothing of it may have been imported before
        from tests.soak.targets import TARGETS, seeds_of
    seeds, target = seeds_of(name), TARGETS[name]

    def one(data: bytes) -> None:
        target(data)

    def custom(data: bytes, most: int, seed: int) -> bytes:
        return mutated(random.Random(seed), [data, *seeds])[:most]

    CORPUS.mkdir(exist_ok=True)
    options = [f"-artifact_prefix={CORPUS}/{name}-", f"-timeout={WATCHDOG_S}", f"-rss_limit_mb={MOST_KB // 1024}"]
    atheris.Setup([sys.argv[0], *options], one, custom_mutator=custom)
    atheris.Fuzz()


def main(words: list[str]) -> int:
    """Feeds the chosen targets; 0 when nothing was found."""
    reader = argparse.ArgumentParser(description="Mutated inputs for every reader.")
    reader.add_argument("--inputs", type=int, default=200_000)
    reader.add_argument("--target", action="append", choices=sorted(SHARES), default=[])
    reader.add_argument("--seed", type=int, default=1)
    reader.add_argument("--guided", action="store_true")
    chosen = reader.parse_args(words)
    names = chosen.target or list(SHARES)
    if chosen.guided:
        guided(names[0])
        return 0
    from tests.soak.targets import forget

    whole = sum(SHARES[name] for name in names)
    print(f"{'target':<14} {'inputs':>8} {'taken':>8} {'finds':>6} {'s':>7} {'longest s':>10} {'MB':>5}")
    found = 0
    for name in names:
        inputs = round(chosen.inputs * SHARES[name] / whole)
        start = time.monotonic()
        taken, finds, longest = run(name, inputs, chosen.seed)
        found += finds
        spent, memory = time.monotonic() - start, memory_kb() // 1024
        print(f"{name:<14} {inputs:>8} {taken:>8} {finds:>6} {spent:>7.1f} {longest:>10.2f} {memory:>5}", flush=True)
    forget()
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
