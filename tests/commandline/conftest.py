"""A project on disk and a way to run calls on it, in this process."""

from collections.abc import Callable
from pathlib import Path
from typing import NamedTuple

import pytest

from composer.commandline import main

TABLE = """name,width,height,face,lip,weight,hanger,drop,drop-right,spacing,offset,wire,ring-drop,note
Boats,40 cm,50 cm,25 mm,6 mm,1.2 kg,sawtooth,4 cm,,,,,,
Moth,30 cm,25 cm,,,800 g,wire,,,,,,,
boats,20 1/4 in,12 in,1 in,1/4 in,2 lb 3 oz,d-rings,2 in,2 1/8 in,15 in,-1/4 in,,,=SUM(A1)
Łódź,50 cm,70 cm,30 mm,,1.4 kg,strips,,,,,,,
"""
"""Piece 1 and 3 differ in the capital only; 2 is not measured; 4 hangs by strips."""


class Answer(NamedTuple):
    """What a call gave back."""

    code: int
    out: str
    err: str


Call = Callable[..., Answer]


@pytest.fixture
def call(capfdbinary: pytest.CaptureFixture[bytes]) -> Call:
    """Runs one call in this process and gives its exit code, answer and remarks."""

    def run(*words: object) -> Answer:
        capfdbinary.readouterr()
        code = main([str(word) for word in words])
        out, err = capfdbinary.readouterr()
        return Answer(code, out.decode("utf-8"), err.decode("utf-8"))

    return run


@pytest.fixture
def file(tmp_path: Path, call: Call) -> Path:
    """A metric project of four pieces on the floor of a wall 360 × 250 cm."""
    table = tmp_path / "frames.csv"
    table.write_text(TABLE, encoding="utf-8")
    made = tmp_path / "home.wallwright"
    answer = call("new", made, "--wall-width", "360cm", "--wall-height", "2.5m", "--pieces", table)
    assert answer == (0, "", "")
    table.unlink()
    return made
