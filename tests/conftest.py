"""Settings of every test: no screen is needed, and nothing personal is read or written."""

import atexit
import os
import shutil
import tempfile
from pathlib import Path

import pytest

_HOME = Path(tempfile.mkdtemp(prefix="wallwright-tests-"))
atexit.register(shutil.rmtree, _HOME, ignore_errors=True)

# Before Qt is loaded by anything: each worker has its own settings, cache, recovery copies and last file.
os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
os.environ["WALLWRIGHT_LANGUAGE"] = "en"
for _name in ("XDG_CACHE_HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_STATE_HOME"):
    os.environ[_name] = str(_HOME / _name.lower())

WITHOUT_QT = os.environ.get("WALLWRIGHT_TESTS_WITHOUT_QT") == "1"
"""Set by check.py where Qt's system libraries are missing: modules that import Qt cannot even be read."""

collect_ignore = ["desktop"] if WITHOUT_QT else []

from hypothesis import settings  # noqa: E402 (it looks at the environment)

settings.register_profile("steady", deadline=None, derandomize=bool(os.environ.get("CI")))
settings.load_profile("steady")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Marks the tests that need Qt, so that the others run without its libraries."""
    desktop = Path(__file__).parent / "desktop"
    gui = [item for item in items if "qtbot" in getattr(item, "fixturenames", ()) or desktop in item.path.parents]
    for item in gui:
        item.add_marker(pytest.mark.gui)
    if gui and not WITHOUT_QT:
        from PySide6.QtCore import QStandardPaths

        QStandardPaths.setTestModeEnabled(True)
