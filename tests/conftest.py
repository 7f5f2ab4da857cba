"""Settings of every test: no screen is needed, and nothing personal is touched."""

import os
import tempfile

import pytest

os.environ.setdefault("QT_QPA_PLATFORM", "offscreen")
os.environ.setdefault("WALLWRIGHT_LANGUAGE", "en")
os.environ.setdefault("XDG_CACHE_HOME", tempfile.mkdtemp(prefix="wallwright-cache-"))

from hypothesis import settings

settings.register_profile("steady", deadline=None, derandomize=bool(os.environ.get("CI")))
settings.load_profile("steady")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Marks the tests that need Qt, so that the others run without its libraries."""
    for item in items:
        if "qtbot" in getattr(item, "fixturenames", ()) or "tests/desktop" in item.path.as_posix():
            item.add_marker(pytest.mark.gui)
