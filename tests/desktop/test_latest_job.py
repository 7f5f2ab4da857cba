"""Work away from the window: of each kind the latest wish alone is answered, and nothing waits for the rest."""

import threading
import time
from functools import partial

import pytest
from pytestqt.qtbot import QtBot

from composer.desktop.change.planning import day_of, instant_of_day, now_instant
from composer.desktop.money.latest_job import LatestJob


def test_of_each_kind_the_latest_is_answered(qtbot: QtBot) -> None:
    heard: list[tuple[str, object]] = []
    job, go = LatestJob(), threading.Event()
    job.answered.connect(lambda kind, answer: heard.append((kind, answer)))
    begun = threading.Event()

    def slow() -> str:
        begun.set()
        go.wait(20)
        return "too late"

    job.ask("sums", slow)
    assert begun.wait(20)
    for number in range(5):
        job.ask("sums", partial(int, number))
    job.ask("ways", lambda: "found")
    go.set()
    job.wait()
    assert heard == [("sums", 4), ("ways", "found")]
    job.stop()


def test_what_breaks_down_is_logged_and_answered_with_none(qtbot: QtBot, caplog: pytest.LogCaptureFixture) -> None:
    heard: list[tuple[str, object]] = []
    job = LatestJob()
    job.answered.connect(lambda kind, answer: heard.append((kind, answer)))

    def broken() -> object:
        raise ZeroDivisionError("on purpose")

    job.ask("sums", broken)
    job.wait()
    job.ask("sums", lambda: 1)
    job.wait()
    assert heard == [("sums", None), ("sums", 1)]
    assert "on purpose" in caplog.text
    job.stop()


def test_forgotten_work_is_never_heard_of(qtbot: QtBot) -> None:
    heard: list[str] = []
    job = LatestJob()
    job.answered.connect(lambda kind, answer: heard.append(kind))
    job.ask("ways", lambda: time.sleep(0.05))
    job.forget("ways")
    job.wait()
    assert heard == []
    job.stop()


def test_stopping_does_not_wait(qtbot: QtBot) -> None:
    heard: list[str] = []
    job, go, begun = LatestJob(), threading.Event(), threading.Event()
    job.answered.connect(lambda kind, answer: heard.append(kind))

    def endless() -> None:
        begun.set()
        go.wait(60)

    job.ask("ways", endless)
    assert begun.wait(20)
    start = time.perf_counter()
    job.stop()
    assert time.perf_counter() - start < 20  # a watchdog: it returns at once
    go.set()
    qtbot.wait(50)
    assert heard == []


def test_days_and_moments() -> None:
    # A moment in UTC and the day it was here, whatever the zone: noon is the same day everywhere from −11 to +11.
    assert day_of(instant_of_day("2026-01-10")) == "2026-01-10"
    assert instant_of_day(day_of(now_instant()))[:13] == now_instant()[:13]
    for wrong in ("10.1.2026", "2026-13-01", "", "2999-01-01"):
        with pytest.raises(ValueError, match=r"such as 2026-04-18|yet to come"):
            instant_of_day(wrong)
