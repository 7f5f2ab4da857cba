"""Whether the tests notice a wrong line: faults are put into the kernels one at a time, and their tests are run.

python tests/soak/mutation.py                       every fault of every kernel (about an hour on a quiet core)
python tests/soak/mutation.py tiling packs          these kernels
python tests/soak/mutation.py --share 0.3 --seed 2  that share of the faults, drawn with that seed
python tests/soak/mutation.py --module grammar      modules whose path contains that
python tests/soak/mutation.py --again TABLE         only the survivors of a table printed before

It works on a copy of the tree. First, without a fault, the tests must pass; then a planted fault in
each module must be noticed, or nothing that follows would mean anything. A fault nobody notices is a
survivor: a test is missing, or the fault makes no difference, and then ``mutation_survivors.txt``
says why. 0 = no survivor that is not listed.

Libraries for this mutate inside functions only; half of what can go wrong here stands in tables and
constants of the module. So the faults are our own (``mutants.py``, with ``ast``), and each is run by
a fork of one warm process, with only those tests that reach its line, the quickest first.
"""

from __future__ import annotations

import argparse
import importlib
import os
import random
import shutil
import signal
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any, NamedTuple

ROOT = Path(__file__).resolve().parents[2]
if str(ROOT) not in sys.path:
    sys.path.insert(0, str(ROOT))

from tests.soak.kernels import Kernel, chosen  # noqa: E402
from tests.soak.mutants import Mutant, mutants_of  # noqa: E402

LISTED = Path(__file__).with_name("mutation_survivors.txt")
WARM = ("pytest", "hypothesis", "hypothesis.strategies", "msgspec", "pint", "shapely", "numpy", "coverage", "PIL")
PLUGINS = ("_hypothesis_pytestplugin",)
SETTINGS = """[pytest]
addopts = --import-mode=importlib --strict-markers
pythonpath = .
markers =
    gui: needs Qt
    timeout: not used here
filterwarnings = error
"""

PATIENCE_S = 10
"""So long any test may take, however quick it is without a fault; then ten times as long as that."""

NodeId = str


class Reached(NamedTuple):
    """What a run without a fault tells.

    Attributes:
        seconds: how long each test took, by node id.
        lines: which tests ran a line, by module and number.
        imported: lines that run when the module is imported.
    """

    seconds: dict[NodeId, float]
    lines: dict[str, dict[int, list[NodeId]]]
    imported: dict[str, set[int]]


class _Chosen:
    """Runs only these tests, in this order, and remembers how long each took; a plugin of pytest.

    A test that takes far longer than it did without a fault ends the process by an alarm.
    """

    def __init__(self, usual: dict[NodeId, float], wanted: list[NodeId] | None = None) -> None:
        self.usual, self.wanted, self.seconds = usual, wanted, dict[NodeId, float]()
        self.context: Callable[[str], object] | None = None

    def pytest_collection_modifyitems(self, items: list[Any]) -> None:
        if self.wanted is not None:
            by_id = {item.nodeid: item for item in items}
            items[:] = [by_id[name] for name in self.wanted if name in by_id]

    def pytest_runtest_logstart(self, nodeid: str) -> None:
        if self.context:
            self.context(nodeid)
        if nodeid in self.usual:
            signal.alarm(PATIENCE_S + round(10 * self.usual[nodeid]))

    def pytest_runtest_logreport(self, report: Any) -> None:
        self.seconds[report.nodeid] = self.seconds.get(report.nodeid, 0.0) + report.duration


def _in_fork(work: Callable[[], int], seconds: float, log: Path) -> int | None:
    """What ``work`` gives in a process of its own; None when it did not end in time."""
    child = os.fork()
    if child == 0:
        code = 70
        try:
            os.setsid()
            out = os.open(log, os.O_WRONLY | os.O_CREAT | os.O_TRUNC)
            os.dup2(out, 1)
            os.dup2(out, 2)
            code = work()
        finally:
            sys.stdout.flush()
            os._exit(code)
    end = time.monotonic() + seconds
    while time.monotonic() < end:
        done, status = os.waitpid(child, os.WNOHANG)
        if done:
            return os.waitstatus_to_exitcode(status)
        time.sleep(0.005)
    os.killpg(child, signal.SIGKILL)
    os.waitpid(child, 0)
    return None


def _pytest(tree: Path, plugin: _Chosen, tests: list[str]) -> int:
    import pytest
    from hypothesis import Phase, settings

    os.chdir(tree)
    sys.path.insert(0, str(tree))
    # A found example need not be made small, and the examples are the same each time.
    looking = (Phase.explicit, Phase.generate)
    settings.register_profile("mutants", deadline=None, derandomize=True, database=None, phases=looking)
    plugins = [word for name in PLUGINS for word in ("-p", name)]
    words = ["-x", "-q", "--assert=plain", "-p", "no:cacheprovider", "--hypothesis-profile=mutants", *plugins, *tests]
    return int(pytest.main(words, plugins=[plugin]))


def reached(tree: Path, kernel: Kernel, scratch: Path) -> Reached:
    """Runs the kernel's tests without a fault and says which of them reach which line.

    Raises:
        SystemExit: they do not pass.
    """
    import json

    told, log = scratch / "reached.json", scratch / "log"

    def work() -> int:
        import coverage

        sys.path.insert(0, str(tree))
        os.chdir(tree)
        watch = coverage.Coverage(data_file=None, include=[str(tree / module) for module in kernel.modules])
        watch.start()
        for module in kernel.modules:
            found = importlib.import_module(module.removesuffix(".py").replace("/", "."))
            if not str(found.__file__).startswith(str(tree)):
                raise AssertionError(f"{found.__file__} is not the copy")
        plugin = _Chosen({})
        plugin.context = watch.switch_context
        code = _pytest(tree, plugin, list(kernel.tests))
        watch.stop()
        data = watch.get_data()
        lines = {module: dict(data.contexts_by_lineno(str(tree / module))) for module in kernel.modules}
        told.write_text(json.dumps([plugin.seconds, lines]))
        return code

    code = _in_fork(work, 900, log)
    if code != 0:
        raise SystemExit(f"Without a fault the tests of {kernel.name} end with {code}:\n{log.read_text()[-3000:]}")
    seconds, raw = json.loads(told.read_text())
    lines: dict[str, dict[int, list[NodeId]]] = {}
    imported: dict[str, set[int]] = {}
    for module, by_line in raw.items():
        lines[module] = {int(line): [one for one in who if one] for line, who in by_line.items()}
        imported[module] = {int(line) for line, who in by_line.items() if "" in who}
    return Reached(seconds, lines, imported)


def tests_for(mutant: Mutant, module: str, map_: Reached) -> list[NodeId]:
    """The tests that can notice a mutant, the quickest first; all of them where its line runs at import."""
    lines = range(mutant.first, mutant.last + 1)
    direct = {name for line in lines for name in map_.lines[module].get(line, ())}
    ordered = sorted(direct, key=lambda name: map_.seconds.get(name, 0.0))
    if any(line in map_.imported[module] for line in lines):
        rest = sorted(set(map_.seconds) - direct, key=lambda name: map_.seconds[name])
        return ordered + rest
    return ordered


def noticed(tree: Path, module: str, source: str, tests: list[NodeId], map_: Reached, log: Path) -> str:
    """What became of a module with this source: "killed", "hung" or "survived"."""
    path = tree / module
    kept = path.read_text(encoding="utf-8")
    path.write_text(source, encoding="utf-8")
    files = sorted({name.partition("::")[0] for name in tests})
    limit = 120 + 20 * sum(map_.seconds.get(name, 0.0) for name in tests)
    try:
        code = _in_fork(lambda: _pytest(tree, _Chosen(map_.seconds, tests), files), limit, log)
    finally:
        path.write_text(kept, encoding="utf-8")
    if code is None or code == -signal.SIGALRM:
        return "hung"
    return {0: "survived", 70: "broken"}.get(code, "killed")


def _planted(source: str) -> str:
    """The module with its first function that gives something giving nothing."""
    wanted = (one.source for one in mutants_of(source) if one.what.endswith("→ return None"))
    return next(wanted, source + "\nraise RuntimeError\n")


def listed() -> dict[tuple[str, str], str]:
    """The survivors that make no difference, by module and fault, with the reason."""
    found: dict[tuple[str, str], str] = {}
    module = ""
    for line in LISTED.read_text(encoding="utf-8").splitlines() if LISTED.exists() else ():
        if line.startswith("composer/"):
            module = line.strip()
        elif "  |  " in line:
            what, _, why = line.strip().partition("  |  ")
            found[module, what] = why
    return found


def main(words: list[str]) -> int:
    """Runs the faults asked for, prints the table and every new survivor."""
    reader = argparse.ArgumentParser(description="Whether the tests notice a wrong line.")
    reader.add_argument("kernels", nargs="*")
    reader.add_argument("--share", type=float, default=1.0, help="of the faults, 0 to 1")
    reader.add_argument("--seed", type=int, default=1)
    reader.add_argument("--module", default="", help="only modules whose path contains that")
    reader.add_argument("--again", type=Path, help="a table printed before")
    asked = reader.parse_args(words)
    before = None if asked.again is None else asked.again.read_text(encoding="utf-8").splitlines()
    again = None if before is None else {line.strip().partition("  ")[2] for line in before if line.startswith("    ")}
    os.environ |= {
        "WALLWRIGHT_TESTS_WITHOUT_QT": "1", "WALLWRIGHT_LANGUAGE": "en", "CI": "true", "PYTHONDONTWRITEBYTECODE": "1",
        "PYTEST_DISABLE_PLUGIN_AUTOLOAD": "1", "PYTHONHASHSEED": "0",
    }  # fmt: skip
    sys.dont_write_bytecode = True
    for name in WARM:
        importlib.import_module(name)
    known, new = listed(), 0
    print(f"{'module':<36} {'faults':>6} {'run':>5} {'killed':>6} {'hung':>5} {'listed':>6} {'new':>4}  s", flush=True)
    with tempfile.TemporaryDirectory(prefix="wallwright-mutation-") as folder:
        scratch = Path(folder).resolve()
        tree = scratch / "tree"
        for name in ("composer", "tests", "resources", "samples"):
            shutil.copytree(ROOT / name, tree / name, ignore=shutil.ignore_patterns("__pycache__"))
        (tree / "pytest.ini").write_text(SETTINGS, encoding="utf-8")
        for kernel in chosen(asked.kernels):
            modules = [module for module in kernel.modules if asked.module in module]
            if modules:
                map_ = reached(tree, kernel, scratch)
                for module in modules:
                    chance = random.Random(asked.seed)
                    faults = list(mutants_of((tree / module).read_text(encoding="utf-8")))
                    drawn = [fault for fault in faults if chance.random() < asked.share]
                    if again is not None:
                        drawn = [fault for fault in drawn if fault.what in again]
                    if drawn:
                        new += _module(tree, module, map_, drawn, known, len(faults))
    print(f"{new} new survivors" if new else "no new survivor")
    return 1 if new else 0


def _module(
    tree: Path,
    module: str,
    map_: Reached,
    drawn: list[Mutant],
    known: dict[tuple[str, str], str],
    of: int,
) -> int:
    source = (tree / module).read_text(encoding="utf-8")
    log = tree.parent / "log"
    every = sorted(map_.seconds, key=lambda name: map_.seconds[name])
    if noticed(tree, module, _planted(source), every, map_, log) != "killed":
        raise SystemExit(f"A fault planted in {module} was not noticed: {log.read_text()[-2000:]}")
    start, outcomes, survivors = time.monotonic(), dict[str, int](), list[str]()
    for fault in drawn:
        tests = tests_for(fault, module, map_)
        outcome = noticed(tree, module, fault.source, tests, map_, log) if tests else "survived"
        if outcome == "broken":
            raise SystemExit(f"The run of {module}:{fault.first} {fault.what} broke: {log.read_text()[-2000:]}")
        if outcome == "survived" and "cache" in source and len(tests) < len(every):
            # What is remembered is reached by the first test only; the others may notice all the same.
            outcome = noticed(tree, module, fault.source, every, map_, log)
        if outcome == "survived":
            outcome = "listed" if (module, fault.what) in known else "new"
            if outcome == "new":
                survivors.append(f"    {module}:{fault.first}  {fault.what}" + ("" if tests else "  (no test runs it)"))
        outcomes[outcome] = outcomes.get(outcome, 0) + 1
    figures = " ".join(
        f"{outcomes.get(name, 0):>{width}}" for name, width in (("killed", 6), ("hung", 5), ("listed", 6), ("new", 4))
    )
    print(f"{module:<36} {of:>6} {len(drawn):>5} {figures}  {time.monotonic() - start:.0f}", flush=True)
    print(*survivors, sep="\n", end="\n" if survivors else "", flush=True)
    return len(survivors)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
