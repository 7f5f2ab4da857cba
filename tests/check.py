"""The one command that checks everything: format, lint, types, imports, tests.

python tests/check.py            everything, stops at the first failure
python tests/check.py --fast     everything but the tests that need Qt
python tests/check.py --tests    the tests alone
python tests/check.py --fix      formats and mends what ruff can mend
"""

import os
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
APT_PACKAGES = "libgl1 libegl1 libfontconfig1 libglib2.0-0 libdbus-1-3 libxkbcommon0"

STEPS: list[tuple[str, list[str]]] = [
    ("format", ["-m", "ruff", "format", "--check", "."]),
    ("lint", ["-m", "ruff", "check", "."]),
    ("types", ["-m", "mypy"]),
    ("imports", ["-c", "import sys; from importlinter.cli import lint_imports_command as main; sys.exit(main())"]),
]


def run(arguments: list[str]) -> int:
    """Runs Python with these arguments in the project's folder."""
    environment = {**os.environ, "PYTHONPATH": str(ROOT)}
    return subprocess.call([sys.executable, *arguments], cwd=ROOT, env=environment)


def qt_loads() -> bool:
    """Whether Qt's own system libraries are there, tried in a child of its own."""
    child = subprocess.run(
        [sys.executable, "-c", "import PySide6.QtWidgets"], cwd=ROOT, capture_output=True, check=False
    )
    return child.returncode == 0


def run_tests(*, with_qt: bool) -> int:
    """The tests; without Qt's libraries the core ones, and says so."""
    arguments = ["-m", "pytest", "-q"]
    if with_qt and qt_loads():
        return run(arguments)
    code = run([*arguments, "-p", "no:pytest-qt", "-m", "not gui"])
    if with_qt:
        print(
            "The tests of the window were left out: Qt's system libraries are missing. "
            f"On Debian or Ubuntu: apt install {APT_PACKAGES}"
        )
        if os.environ.get("CI") == "true":
            return code or 1
    return code


def main(options: list[str]) -> int:
    """Runs what the options ask for; 0 when all is well."""
    unknown = set(options) - {"--fast", "--tests", "--fix"}
    if unknown:
        print(f"Unknown option {sorted(unknown)[0]}; there are --fast, --tests and --fix.")
        return 2
    if "--fix" in options:
        return run(["-m", "ruff", "format", "."]) or run(["-m", "ruff", "check", "--fix", "."])
    if "--tests" not in options:
        for name, arguments in STEPS:
            print(f"— {name}", flush=True)
            if run(arguments):
                print(f"The step “{name}” failed. Alone: python {' '.join(arguments)}")
                return 1
    print("— tests", flush=True)
    return run_tests(with_qt="--fast" not in options)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
