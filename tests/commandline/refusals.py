"""Runs a call that must be refused: one line on standard error, its exit code, nothing answered, nothing changed.

Rows of the tables are ``words, exit code, what the line says`` under the rule they follow from, told in own words.
"""

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

Call = Callable[..., Any]
Row = tuple[str, int, str]

NEWER = '{"format": "wallwright-project", "version": 999, "program": "later", "project": {}}'
SPACE = "␣"
"""Stands for a space inside a word of a row."""


def rows_of(rules: dict[str, list[Row]]) -> list[Any]:
    """Every row as a test case named after its rule and its words."""
    return [
        pytest.param(words, code, says, id=f"{rule}: {words}")
        for rule, rows in rules.items()
        for words, code, says in rows
    ]


def assert_refused(words: str, code: int, says: str, file: Path, call: Call) -> None:
    """Runs the row's call beside a project and looks at all it did.

    FILE is a project of four pieces; TEXT a shopping list; NEWER a project of a later format; FOLDER a folder;
    MISSING and NOFOLDER are not there; OUT and DIR may be written; T is a table of one frame.
    """
    folder = file.parent
    (folder / "text.txt").write_text("Shopping: milk", encoding="utf-8")
    (folder / "newer.wallwright").write_text(NEWER, encoding="utf-8")
    (folder / "one.csv").write_text("name,width,height\nOne,10cm,10cm\n", encoding="utf-8")
    (folder / "folder").mkdir()
    names = {
        "FILE": file,
        "MISSING": folder / "missing.csv",
        "FOLDER": folder / "folder",
        "TEXT": folder / "text.txt",
        "NEWER": folder / "newer.wallwright",
        "OUT": folder / "out.wallwright",
        "PDF": folder / "out.pdf",
        "T": folder / "one.csv",
        "DIR": folder / "prints",
        "NOFOLDER": folder / "nowhere" / "out.pdf",
    }
    before = all_bytes(folder)
    answer = call(*(names.get(word, word.replace(SPACE, " ")) for word in words.split()))
    assert answer.code == code, answer.err
    assert answer.out == ""
    assert_one_line(answer.err)
    assert re.search(says, answer.err), answer.err
    assert all_bytes(folder) == before


def assert_one_line(said: str) -> None:
    """One finished line in plain words: no traceback, no usage block."""
    assert said.count("\n") == 1
    assert said.endswith("\n")
    assert said.startswith("wallwright: ")
    assert "Traceback" not in said
    assert "usage" not in said.lower()
    assert len(said) < 1500


def all_bytes(folder: Path) -> dict[str, bytes]:
    """Every file but the locks, which stay beside a project."""
    return {
        str(path.relative_to(folder)): path.read_bytes()
        for path in folder.rglob("*")
        if path.is_file() and not path.name.endswith((".lock", ".holder"))
    }
