"""Work away from the window: done in order, dropped before it begins, waited for, and never silent when it fails."""

import logging
import re
import threading
from pathlib import Path

import pytest

from composer.desktop.workers import Workers

COMPOSER = Path(__file__).parents[2] / "composer"


def test_one_thing_after_the_other_and_what_has_not_begun_is_dropped() -> None:
    workers, done, begun, go = Workers(1), [], threading.Event(), threading.Event()

    def first() -> None:
        begun.set()
        assert go.wait(60)
        done.append("first")

    workers.start(first)
    assert begun.wait(60)
    workers.start(lambda: done.append("dropped"))
    workers.clear()
    workers.start(lambda: done.append("last"))
    go.set()
    workers.wait()
    assert done == ["first", "last"]
    workers.stop()
    with pytest.raises(RuntimeError):
        workers.start(lambda: None)


def _broken() -> None:
    raise ZeroDivisionError("nought")


def test_what_fails_is_logged_and_the_next_thing_is_done(caplog: pytest.LogCaptureFixture) -> None:
    workers, done = Workers(1), []
    with caplog.at_level(logging.ERROR):
        workers.start(_broken)
        workers.start(lambda: done.append("next"))
        workers.wait()
        workers.stop()
    assert done == ["next"]
    assert "ZeroDivisionError" in caplog.text


def test_no_module_uses_the_runner_that_loses_its_function() -> None:
    users = [path.name for path in COMPOSER.rglob("*.py") if re.search(r"import .*QRunnable", path.read_text("utf-8"))]
    assert not users
