"""The modules a wrong number would come from, and the tests that answer for each.

python tests/soak/kernels.py          branch coverage of each by its own tests alone; 1 where a branch is missed
python tests/soak/kernels.py NAME     one row

``python tests/check.py --coverage`` does the same. Covered says only that a line was run; whether a
wrong line is noticed is asked by ``mutation.py`` beside this file.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import NamedTuple

ROOT = Path(__file__).resolve().parents[2]


class Kernel(NamedTuple):
    """Modules of one kind with the tests that answer for them.

    Attributes:
        name: of the row.
        modules: paths from the project's folder.
        tests: folders or files of tests, the same.
    """

    name: str
    modules: tuple[str, ...]
    tests: tuple[str, ...]


def _in(folder: str, *names: str) -> tuple[str, ...]:
    return tuple(f"composer/{folder}/{name}.py" for name in names)


KERNELS = (
    Kernel("units", _in("units", "factors", "grammar", "shown", "typed"), ("tests/units",)),
    Kernel(
        "hanging",
        _in("hanging", "kernel", "mass_kernel", "edges", "points", "strip_ladder", "strips"),
        ("tests/hanging",),
    ),
    Kernel(
        "tiling",
        _in("paper", "tiling", "grid", "spans", "kept_sheets"),
        ("tests/paper/test_tiling.py", "tests/paper/test_economies.py"),
    ),
    Kernel("prints", _in("prints", "choosing", "cropping", "sharpness", "stock"), ("tests/prints",)),
    Kernel("packs", _in("costing", "packs"), ("tests/costing/test_packs.py",)),
    Kernel("snapping", _in("geometry", "snapping", "snap_lines", "bands", "rectangle"), ("tests/geometry",)),
)


def measure(kernels: tuple[Kernel, ...] = KERNELS) -> int:
    """Prints the branch coverage of each kernel by its own tests; 1 where anything is missed or a test fails."""
    code = 0
    for kernel in kernels:
        with tempfile.TemporaryDirectory(prefix="wallwright-coverage-") as scratch:
            ran, told = _run(kernel, Path(scratch))
        complete = ran.returncode == 0 and told.returncode == 0
        last = (ran.stdout.strip() or ran.stderr.strip() or "nothing said").splitlines()[-1]
        print(f"{'ok ' if complete else 'NOT'}  {kernel.name:<10} {len(kernel.modules)} modules, {last}", flush=True)
        if not complete:
            print(told.stdout + told.stderr if ran.returncode == 0 else ran.stdout)
            code = 1
    return code


def _run(kernel: Kernel, scratch: Path) -> tuple[subprocess.CompletedProcess[str], subprocess.CompletedProcess[str]]:
    """The tests of a kernel under coverage, and the report of it; what its tests start is watched, too."""
    settings = scratch / "coveragerc"
    modules = ", ".join(str(ROOT / module) for module in kernel.modules)
    settings.write_text(
        f"[run]\nbranch = true\nparallel = true\npatch = subprocess\ndata_file = {scratch / 'data'}\n"
        f"include = {modules}\n[report]\nfail_under = 100\nshow_missing = true\nskip_covered = true\n",
        encoding="utf-8",
    )
    # CI: the same examples each time.
    where = {**os.environ, "WALLWRIGHT_TESTS_WITHOUT_QT": "1", "CI": "true", "COVERAGE_RCFILE": str(settings)}

    def python(*words: str) -> subprocess.CompletedProcess[str]:
        return subprocess.run([sys.executable, "-m", *words], cwd=ROOT, env=where, capture_output=True, text=True)

    tests = ("pytest", "-q", "-n0", "-p", "no:randomly", "-p", "no:cacheprovider", "-p", "no:pytest-qt", *kernel.tests)
    ran = python("coverage", "run", "-m", *tests)
    python("coverage", "combine")
    return ran, python("coverage", "report")


def chosen(names: list[str]) -> tuple[Kernel, ...]:
    """The kernels of these names; all where none is given.

    Raises:
        SystemExit: for a name there is not.
    """
    known = {kernel.name: kernel for kernel in KERNELS}
    if unknown := [name for name in names if name not in known]:
        raise SystemExit(f"There is no kernel {unknown[0]!r}; there are {', '.join(known)}.")
    return tuple(known[name] for name in names or known)


if __name__ == "__main__":
    sys.exit(measure(chosen(sys.argv[1:])))
