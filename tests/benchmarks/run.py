"""Runs every benchmark of this folder and prints one table: ratios, their bars, what they were when last kept.

python tests/benchmarks/run.py              all of them
python tests/benchmarks/run.py start drag   some of them
python tests/benchmarks/run.py … --keep     keeps what was measured as the baselines beside this file

A benchmark is a module bench_NAME.py with a function ``measure`` that gives rows; one without is run
as a program of its own. Ends with 1 where a bar is not kept. Seconds are not judged: run it on a quiet
computer, and mistrust a single ratio on a busy one.
"""

from __future__ import annotations

import importlib
import json
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent.parent
if str(ROOT) not in sys.path:
    sys.path.insert(0, str(ROOT))

from tests.benchmarks.measuring import Row, print_table  # noqa: E402

HERE = Path(__file__).resolve().parent
BASELINES = HERE / "baselines.json"


def main(arguments: list[str]) -> int:
    """Runs what is asked for."""
    keep = "--keep" in arguments
    asked = [name for name in arguments if name != "--keep"]
    known = sorted(path.stem.removeprefix("bench_") for path in HERE.glob("bench_*.py"))
    if unknown := [name for name in asked if name not in known]:
        print(f"There is no benchmark {unknown[0]!r}; there are {', '.join(known)}.")
        return 2
    before: dict[str, float] = json.loads(BASELINES.read_text(encoding="utf-8")) if BASELINES.exists() else {}
    rows: list[Row] = []
    code = 0
    for name in asked or known:
        module = importlib.import_module(f"tests.benchmarks.bench_{name}")
        if hasattr(module, "measure"):
            rows += module.measure()
        else:
            print(f"— {name}", flush=True)
            code = subprocess.call([sys.executable, str(HERE / f"bench_{name}.py")], cwd=ROOT) or code
    shown = [row._replace(note=_with_before(row, before)) for row in rows]
    kept = print_table(shown)
    if keep:
        now = before | {row.what: round(row.ratio, 3) for row in rows}
        BASELINES.write_text(json.dumps(now, indent=2, ensure_ascii=False) + "\n", encoding="utf-8")
    return code or (0 if kept else 1)


def _with_before(row: Row, before: dict[str, float]) -> str:
    was = before.get(row.what)
    return row.note if was is None else f"was {was:.3f}; {row.note}".removesuffix("; ")


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
