"""Every version of the project file that ever landed opens, for ever: one file of each stays here, never edited.

Each fills every field of every record of its version, which the schema published with that version proves.
Whoever raises the version adds a file here and a step in ``projectfile/migrations.py``.
"""

import json
import re
from pathlib import Path
from typing import Any

import pytest

from composer.commandline import main
from composer.projectfile import store
from composer.projectfile.migrations import FORMAT_VERSION
from composer.projectfile.schema import encode

HERE = Path(__file__).parent
SCHEMAS = HERE.parents[1] / "resources" / "schema"
FILES = sorted(HERE.glob("*.wallwright"))


def version_of(path: Path) -> int:
    found = re.fullmatch(r"version-(\d+)", path.stem)
    assert found
    return int(found[1])


def test_there_is_a_file_of_every_version() -> None:
    assert [version_of(path) for path in FILES] == list(range(1, FORMAT_VERSION + 1))


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_it_fills_every_field_of_its_version(path: Path) -> None:
    schema = json.loads((SCHEMAS / f"project-v{version_of(path)}.json").read_text(encoding="utf-8"))
    wanted = {(record, field) for record, about in schema["$defs"].items() for field in about.get("properties", {})}
    filled: set[tuple[str, str]] = set()
    _walk(json.loads(path.read_text(encoding="utf-8")), schema, schema, filled)
    assert not wanted - filled


def _walk(value: Any, about: dict[str, Any], schema: dict[str, Any], filled: set[tuple[str, str]]) -> None:
    """Notes each field of each record found, following the schema's own references."""
    for choice in [about, *about.get("anyOf", [])]:
        if "$ref" not in choice:
            continue
        record = choice["$ref"].rpartition("/")[2]
        properties = schema["$defs"][record]["properties"]
        if not isinstance(value, dict) or not set(value) <= set(properties):
            continue
        if any(
            value[name] not in properties[name]["enum"] for name in set(value) & {"kind"} if "enum" in properties[name]
        ):
            continue
        for name, inner in value.items():
            filled.add((record, name))
            _walk(inner, properties[name], schema, filled)
    if isinstance(value, list):
        places = about if "items" in about else next((one for one in about.get("anyOf", []) if "items" in one), {})
        for inner in value:
            if isinstance(places.get("items"), dict):
                _walk(inner, places["items"], schema, filled)


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_it_opens_with_all_that_is_in_it(path: Path) -> None:
    project = store.load(path).project
    assert project.title == "Up the stairs, every field filled"
    assert [piece.name for piece in project.pieces] == ["Åse’s harbour", "Oval", "Moth", "Fern"]
    assert project.pieces[0].frame.height.text == "24 1/4 in"
    assert len(project.arrangements[0].placements) == 2
    assert project.as_hung.holes[0].state == "filled"
    if version_of(path) == FORMAT_VERSION:
        kept = json.loads(encode(project))["project"]
        assert kept == json.loads(path.read_text(encoding="utf-8"))["project"]


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.stem)
def test_it_is_worked_with(path: Path, tmp_path: Path, capfd: pytest.CaptureFixture[str]) -> None:
    """Read, checked, reported, printed, saved: in today's format afterwards."""
    copy = tmp_path / path.name
    copy.write_bytes(path.read_bytes())
    assert main(["report", str(copy), "--arrangement", "FIRST"]) == 0
    assert json.loads(capfd.readouterr().out)["walls"][0]["pieces"][0]["name"] == "Åse’s harbour"
    assert main(["check", str(copy)]) in (0, 1)
    assert main(["paper", str(copy), "templates", "-o", str(tmp_path / "t.pdf"), "--arrangement", "first"]) == 0
    assert main(["export", str(copy), "-o", str(tmp_path / "t.csv")]) == 0
    assert main(["set", str(copy), "title=Newer"]) == 0
    assert json.loads(copy.read_text(encoding="utf-8"))["version"] == FORMAT_VERSION
    assert path.read_bytes() == copy.with_name(f"{copy.name}.bak").read_bytes()
