"""Whatever words stand after the program's name: an answer and 0 or 1, or one line and 2 or 3; never a traceback."""

import string
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from composer.commandline import CALLS
from composer.commandline.calls import CALL_LIST
from composer.projectfile import store
from tests.commandline.conftest import Call
from tests.projectfile import projects

OPTIONS = sorted({option.name for call in CALL_LIST for option in call.options})
PLAIN = [
    "FILE", "1", "2", "Frame 1", "9", "pieces", "wall", "obstacles", "templates", "elevation", "measure", "Hall",
    "title=x", "gap=5cm", "gap=x", "wall.width=1m", "wall.outline=0,0 1,1", "piece.1.drop=1cm", "override.overlap.1=why",
    "1cm", "-1cm", "0", "1/2", "4 ft 9 in", "1e9m", "a4", "30x40cm", "1,1,1,1", "1.01,1", "", "-", "--", "=", "x=", "\x1b[2J",
    "\u202e", "漢字", "\x00",
]  # fmt: skip
words = st.one_of(
    st.sampled_from(PLAIN),
    st.sampled_from(OPTIONS),
    st.builds("{}={}".format, st.sampled_from(OPTIONS), st.sampled_from(PLAIN)),
    st.text(string.printable, max_size=6),
)


@settings(max_examples=300, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(st.sampled_from(CALLS), st.lists(words, max_size=6))
def test_any_words_end_in_an_answer_or_one_line(
    tmp_path: Path, call: Call, monkeypatch: pytest.MonkeyPatch, name: str, rest: list[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    file = tmp_path / "wall.wallwright"
    store.save(file, projects.plain())
    given_words = [str(file) if word == "FILE" else word for word in rest]
    if name in ("set", "add", "place", "paper", "export", "report", "check"):
        given_words.insert(0, str(file))
    answer = call(name, *given_words)
    assert answer.code in (0, 1, 2, 3)
    assert "Traceback" not in answer.err
    assert "went wrong" not in answer.err, answer.err
    if answer.code >= 2:
        assert answer.out == ""
        assert answer.err.count("\n") == 1
        assert answer.err.splitlines() == [answer.err.removesuffix("\n")]
    store.load(file)
