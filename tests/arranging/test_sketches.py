"""Sketches that differ, and the process that looks for them."""

import pickle
import time
from dataclasses import replace

import pytest

from composer.arranging.measures import distance
from composer.arranging.patterns import DoesNotFit
from composer.arranging.searching import Cancelled, Control
from composer.arranging.sketches import DISTINCT, NotOffered, Sketch, sketches, variations
from composer.arranging.task import Size, Task
from composer.arranging.worker import Done, Message, Progress, Proposal, Searcher
from tests.arranging import referee
from tests.arranging.walls import PLAIN, over_sofa, plain


@pytest.mark.parametrize("count", [6, 9])
def test_sketches_differ_and_hang_free(count: int) -> None:
    task = over_sofa(count, 1)
    found = list(sketches(task, most=7))
    given = [one for one in found if isinstance(one, Sketch)]
    assert len(given) >= 5
    for place, one in enumerate(given):
        assert referee.violations(one.found.layout, 50, task.room.corners, task.room.keep_outs) == []
        assert one.sentence.endswith(".")
        for other in given[:place]:
            assert distance(one.found.layout, other.found.layout) >= DISTINCT - 1e-6
    refused = [one for one in found if isinstance(one, NotOffered)]
    assert {"stair"} <= {one.pattern for one in refused}
    assert all(one.reason for one in refused)


def test_one_piece_has_one_sketch_and_none_has_none() -> None:
    assert len([one for one in sketches(plain(1)) if isinstance(one, Sketch)]) == 1
    assert list(sketches(Task((), PLAIN, 50, 1450))) == []


def test_what_cannot_fit_is_said_before_searching() -> None:
    shares: list[float] = []
    with pytest.raises(DoesNotFit):
        list(sketches(replace(plain(3), sizes=(Size(1, 5000, 300),)), control=Control(progress=shares.append)))
    assert shares == []


def test_variations_differ_from_what_they_vary() -> None:
    task = plain(7, 1)
    first = next(one for one in sketches(task) if isinstance(one, Sketch))
    varied = list(variations(task, [first.found], most=3))
    assert varied
    everything = [first.found.layout, *(one.found.layout for one in varied)]
    assert all(
        distance(one, other) >= DISTINCT - 1e-6 for place, one in enumerate(everything) for other in everything[:place]
    )


def test_progress_never_falls_and_a_search_can_be_cancelled() -> None:
    shares: list[float] = []
    list(sketches(plain(6, 2), most=3, control=Control(progress=shares.append)))
    assert shares == sorted(shares) and shares[0] >= 0 and shares[-1] <= 1
    asked = [0]

    def after_thirty() -> bool:
        asked[0] += 1
        return asked[0] > 30

    with pytest.raises(Cancelled):
        list(sketches(plain(12, 2), control=Control(cancelled=after_thirty)))
    assert asked[0] == 31


def _until_done(searcher: Searcher, within_s: float = 60.0) -> list[Message]:
    found: list[Message] = []
    end = time.monotonic() + within_s
    while time.monotonic() < end:
        found += searcher.messages(0.2)
        if found and isinstance(found[-1], Done):
            return found
    raise AssertionError(found)


def test_the_other_process_answers_tells_how_far_it_is_and_stops_when_told() -> None:
    searcher = Searcher()
    try:
        task = plain(6, 1)
        searcher.ask(task, most=4)
        messages = _until_done(searcher)
        assert messages[-1] == Done(1, "complete")
        proposals = [one for one in messages if isinstance(one, Proposal)]
        assert any(isinstance(one, Progress) for one in messages)
        assert {one.fingerprint for one in proposals} == {task.fingerprint}
        here = list(sketches(task, most=4))
        assert [one.found for one in proposals] == here
        searcher.ask(plain(24, 1))
        time.sleep(0.3)
        searcher.cancel()
        assert _until_done(searcher)[-1] == Done(2, "cancelled")
        searcher.ask(replace(task, sizes=(Size(1, 9000, 300),)), "pattern", pattern="row")
        last = _until_done(searcher)[-1]
        assert isinstance(last, Done) and last.how == "impossible" and "9" in last.reason
    finally:
        searcher.close()
    assert not searcher.running


def test_a_new_question_ends_the_old_one() -> None:
    searcher = Searcher()
    try:
        searcher.ask(plain(24, 1))
        time.sleep(0.3)
        ticket = searcher.ask(plain(3, 1), most=2)
        messages = _until_done(searcher)
        assert {one.ticket for one in messages} == {ticket}
        assert messages[-1] == Done(ticket, "complete")
    finally:
        searcher.close()


def test_a_fingerprint_knows_every_change() -> None:
    task = plain(4, 1)
    assert pickle.loads(pickle.dumps(task)).fingerprint == task.fingerprint
    others = [
        replace(task, gap=51.0),
        replace(task, eye_line=1451.0),
        replace(task, sizes=task.sizes[:-1]),
        replace(task, room=replace(task.room, edge_margin=1.0)),
        replace(task, above=200.0),
        replace(task, width=900.0),
    ]
    assert len({task.fingerprint, *(other.fingerprint for other in others)}) == 7
