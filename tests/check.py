"""The one command that checks everything: format, lint, types, imports, tests.

python tests/check.py             everything, stops at the first failure
python tests/check.py --fast      everything but the tests that need Qt
python tests/check.py --tests     the tests alone
python tests/check.py --coverage  every branch of the kernels must be run by their own tests (tests/soak/kernels.py)
python tests/check.py --fix       formats, mends what ruff can mend, renews the list of texts for translators
"""

import os
import shlex
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent

STEPS: list[tuple[str, list[str]]] = [
    ("format", ["-m", "ruff", "format", "--check", "."]),
    ("lint", ["-m", "ruff", "check", "."]),
    ("types", ["-m", "mypy"]),
    ("imports", ["-c", "import sys; from importlinter.cli import lint_imports_command as main; sys.exit(main())"]),
]


def run(arguments: list[str], **environment: str) -> int:
    """Runs Python with these arguments in the project's folder."""
    sys.stdout.flush()
    everything = {**os.environ, "PYTHONPATH": str(ROOT), **environment}
    return subprocess.call([sys.executable, *arguments], cwd=ROOT, env=everything)


def qt_loads() -> bool:
    """Whether Qt's own system libraries are there, tried in a child of its own."""
    child = subprocess.run(
        [sys.executable, "-c", "import PySide6.QtWidgets, PySide6.QtTest"], cwd=ROOT, capture_output=True, check=False
    )
    return child.returncode == 0


def run_tests(*, with_qt: bool) -> int:
    """The tests; without Qt's libraries the core ones, saying how many are left out."""
    arguments = ["-m", "pytest", "-q"]
    workers = min(os.cpu_count() or 1, 4)
    if workers > 1:
        arguments += ["-n", str(workers), "--dist", "loadfile"]
    missing = with_qt and not qt_loads()
    if with_qt and not missing:
        return run(arguments)
    if missing:
        sys.path.insert(0, str(ROOT))
        from composer.__main__ import QT_PACKAGES

        modules = len(list((ROOT / "tests" / "desktop").rglob("test_*.py")))
        print(
            f"Qt's system libraries are missing: the {modules} modules with tests of the window are left out."
            f" On Debian or Ubuntu: apt install {QT_PACKAGES}"
        )
    code = run([*arguments, "-p", "no:pytest-qt", "-m", "not gui"], WALLWRIGHT_TESTS_WITHOUT_QT="1")
    if missing and os.environ.get("CI") == "true":
        return code or 1
    return code


def main(options: list[str]) -> int:
    """Runs what the options ask for; 0 when all is well."""
    unknown = set(options) - {"--fast", "--tests", "--coverage", "--fix"}
    if unknown:
        print(f"Unknown option {sorted(unknown)[0]}; there are --fast, --tests, --coverage and --fix.")
        return 2
    if "--fix" in options:
        tidy = run(["-m", "ruff", "format", "."]) or run(["-m", "ruff", "check", "--fix", "."])
        return tidy or run(["tests/texts_catalogue.py"])
    if "--coverage" in options:
        return run(["tests/soak/kernels.py"])
    if "--tests" not in options:
        for name, arguments in STEPS:
            print(f"— {name}")
            if run(arguments):
                print(f"The step “{name}” failed. Alone: python {shlex.join(arguments)}")
                return 1
    print("— tests")
    return run_tests(with_qt="--fast" not in options)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
