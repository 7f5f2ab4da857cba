"""The manual lists every id a table or a call may use, and no other."""

import re

import pytest

from composer.catalogue import catalogue
from composer.resources import resource


def chapter(name: str) -> str:
    text = resource("help/manual.md").read_text(encoding="utf-8")
    found = re.search(rf"^## {name}\n(.*?)(?=^## |\Z)", text, re.MULTILINE | re.DOTALL)
    assert found is not None
    return found[1]


@pytest.mark.parametrize(
    ("heading", "ids"),
    [
        ("- Mouldings:", catalogue.usual().mouldings),
        ("- Backings:", catalogue.usual().backings),
        ("- Papers, for `piece.N.paper`:", catalogue.usual().papers),
        ("- Wires, for `piece.N.wire-class`:", catalogue.usual().wires),
    ],
)
def test_ids_of_materials(heading: str, ids: dict[str, object]) -> None:
    (line,) = [line for line in chapter("Names for tables and calls").splitlines() if line.startswith(heading)]
    assert re.findall(r"`([^`]+)`", line.removeprefix(heading)) == list(ids)


def test_every_fixing_with_its_load() -> None:
    listed = dict(
        re.findall(r"^- `([a-z0-9-]+)`: [^;]+; ([^;]+);", chapter("Names for tables and calls"), re.MULTILINE)
    )
    expected = {
        fixing.id: "its screws decide" if fixing.load_kg is None else f"{fixing.load_kg:g} kg"
        for fixing in catalogue.usual().fixings.values()
    }
    assert listed == expected
