"""A project file reads back alike, is refused in one sentence where it cannot be, and has a published schema."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from hypothesis import given

from composer.model import Project
from composer.projectfile import migrations
from composer.projectfile.errors import BadProject, NewerFormat, NotAProject, ProjectFileError
from composer.projectfile.schema import LARGEST_BYTES, decode, encode, json_schema
from tests.projectfile import projects

SCHEMA = Path(__file__).resolve().parents[2] / "resources" / "schema" / "project-v1.json"


def raw() -> dict[str, Any]:
    """A whole project as the standard library reads it."""
    found: dict[str, Any] = json.loads(encode(projects.full()))
    return found


def refused(content: object) -> ProjectFileError:
    data = content if isinstance(content, bytes) else json.dumps(content).encode()
    with pytest.raises(ProjectFileError) as caught:
        decode(data, "wall.json")
    sentence = str(caught.value)
    assert "wall.json" in sentence
    assert "\n" not in sentence
    assert sentence.endswith(".")
    assert "`" not in sentence
    assert len(sentence) < 300
    return caught.value


@given(projects.projects())
def test_what_is_written_reads_back_alike_and_is_written_alike_again(project: Project) -> None:
    data = encode(project)
    again = decode(data, "wall.json")
    assert again == project
    assert encode(again) == data


def test_every_record_survives_and_the_text_is_plain_json() -> None:
    project = projects.full()
    data = encode(project)
    assert decode(data, "wall.json") == project
    # The layout is what Python's own json module makes of the same values.
    assert data == json.dumps(json.loads(data), indent=2, ensure_ascii=False).encode() + b"\n"


def test_quantities_stay_as_typed() -> None:
    piece = raw()["project"]["pieces"][0]
    assert piece["frame"]["height"] == "24 1/4 in"
    assert piece["weight"] == "1 lb 4 oz"
    assert piece["price"] == "11.40"


def test_the_published_schema_is_the_one_of_this_program_and_takes_its_files() -> None:
    published = json.loads(SCHEMA.read_text(encoding="utf-8"))
    assert published == json_schema(), "renew with: python -m tests.projectfile.renew_schema"
    jsonschema.Draft202012Validator.check_schema(published)
    validator = jsonschema.Draft202012Validator(published)
    for project in (projects.plain(), projects.full()):
        validator.validate(json.loads(encode(project)))
    broken = raw()
    broken["project"]["pieces"][0]["colour_of_sky"] = "blue"
    assert not validator.is_valid(broken)


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"{}",
        b"[]",
        b"null",
        b"\x00\xff\xfe",
        b"%PDF-1.7",
        b"[" * 100_000,
        b'{"format": "other", "version": 1}',
        b"name,width",
    ],
    ids=repr,
)
def test_something_else_is_not_a_project(content: bytes) -> None:
    assert isinstance(refused(content), NotAProject)


def test_a_monstrous_file_is_not_read() -> None:
    assert isinstance(refused(b" " * (LARGEST_BYTES + 1)), NotAProject)


def test_a_newer_format_says_both_numbers() -> None:
    newer = {**raw(), "version": 12, "invention": True}
    error = refused(newer)
    assert isinstance(error, NewerFormat)
    assert (error.found, error.known) == (12, 1)
    assert "12" in str(error)


@pytest.mark.parametrize("version", [0, -1, True, "1", None, 1.5])
def test_a_strange_format_number_is_refused(version: object) -> None:
    assert isinstance(refused({**raw(), "version": version}), BadProject)


def test_a_file_cut_off_anywhere_is_never_taken_for_a_project() -> None:
    data = encode(projects.full())
    for end in range(0, len(data.rstrip()) - 1, 37):
        error = refused(data[:end])
        assert isinstance(error, BadProject if end > 40 else ProjectFileError)


def test_a_byte_that_is_no_utf8_is_named_by_its_place() -> None:
    data = encode(projects.full())
    place = data.index("Åse".encode()) + 1
    error = refused(data[:place] + b"\xff" + data[place + 1 :])
    assert isinstance(error, BadProject)
    assert f"byte {place - 1}" in str(error)  # the two bytes of Å begin one before


def test_deep_nesting_inside_a_project_is_refused() -> None:
    start = b'{"format": "wallwright-project", "version": 1, "project": '
    assert isinstance(refused(start + b"[" * 100_000), BadProject)


def _put(*way: str | int, value: object) -> Callable[[dict[str, Any]], None]:
    def change(content: dict[str, Any]) -> None:
        place: Any = content
        for step in way[:-1]:
            place = place[step]
        place[way[-1]] = value

    return change


@pytest.mark.parametrize(
    ("change", "where", "word"),
    [
        (_put("colour", value=1), "", "colour"),
        (_put("project", value=[]), "project", "missing"),
        (_put("project", "bogus", value=1), "", "bogus"),
        (_put("project", "pieces", 0, "frame", "bogus", value=1), "pieces[0].frame", "bogus"),
        (_put("project", "pieces", 0, "frame", "width", value=400), "pieces[0].frame.width", "400"),
        (_put("project", "pieces", 0, "frame", "width", value="400"), "pieces[0].frame.width", "400"),
        (_put("project", "pieces", 0, "frame", "width", value="-4 cm"), "pieces[0].frame", "-4 cm"),
        (_put("project", "pieces", 1, "number", value=1), "", "used twice"),
        (_put("project", "pieces", 1, "name", value="a\x07b"), "pieces[1]", "U+0007"),
        (_put("project", "pieces", 1, "name", value="A\u030ase"), "pieces[1]", "NFC"),
        (_put("project", "walls", value=[]), "", "at least one wall"),
        (_put("project", "walls", 0, "outline", value=[[0, 0], [1, 1], [1, 0], [0, 1]]), "walls[0]", "crosses"),
        (_put("project", "arrangements", 0, "placements", 0, "left", value=1e9), "placements[0]", "100 m"),
        (_put("project", "arrangements", 0, "placements", 0, "left", value="5"), "placements[0].left", "float"),
        (_put("project", "arrangements", 0, "placements", 0, "wall", value="w9"), "", "w9"),
        (_put("project", "arrangements", 0, "placements", 0, "left", value=10**400), "placements[0].left", ""),
        (_put("project", "as_hung", "items", 0, "points", value=[[1, 2, 3]]), "as_hung.items[0].points[0]", "length 2"),
        (_put("project", "money", "budget", value="a lot"), "money.budget", "decimal"),
        (_put("project", "arrangements", 0, "relations", 0, "kind", value="love"), "relations[0].kind", "love"),
        (_put("project", "fraction", value=12), "fraction", "12"),
        (_put("project", "current_arrangement", value="h8"), "", "h8"),
        (_put("project", "units", value="cubits"), "units", "cubits"),
        (_put("project", "money", "budget", value="-3"), "money", "-3"),
        (_put("project", "next_key", value=3), "", "next key"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_named_with_its_place(
    change: Callable[[dict[str, Any]], None], where: str, word: str
) -> None:
    content = raw()
    change(content)
    error = refused(content)
    assert isinstance(error, BadProject)
    assert where in error.where
    assert word in str(error)


def test_a_missing_field_is_named() -> None:
    content = raw()
    del content["project"]["title"]
    assert "title" in str(refused(content))


def test_older_formats_are_brought_up_step_by_step(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(migrations, "STEPS", {})
    migrations.step(1)(lambda found: {**found, "way": [*found["way"], 1]})
    migrations.step(2)(lambda found: {**found, "way": [*found["way"], 2]})
    assert migrations.migrate({"way": []}, 1, 3) == {"way": [1, 2]}
    assert migrations.migrate({"way": []}, 2, 3) == {"way": [2]}
    with pytest.raises(ValueError):
        migrations.step(2)(lambda found: found)


def test_every_older_format_has_its_step() -> None:
    assert sorted(migrations.STEPS) == list(range(1, migrations.FORMAT_VERSION))
