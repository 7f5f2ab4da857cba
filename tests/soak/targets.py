"""What is fuzzed: readers of what people type, paste and open; each takes bytes and refuses with a sentence.

A target returns whether the input was taken; anything it raises is a find. What it takes must also go through
what comes after the reader: written and read again, checked, reported.
"""

import json
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import Any

from composer.commandline.findings_shown import as_plain, lines_of
from composer.commandline.report import build
from composer.findings.cache import check
from composer.model import Project
from composer.projectfile import inventory, lists, schema
from composer.projectfile.errors import ProjectFileError
from composer.units import BadQuantity, Length, Mass, read_length, read_mass, read_money
from tests.projectfile import projects
from tests.soak import file_targets
from tests.soak.file_targets import sentence
from tests.soak.mutations import NUMBERS, TYPED

ROOT = Path(__file__).resolve().parents[2]
Target = Callable[[bytes], bool]

_FILE = Path(tempfile.mkdtemp(prefix="wallwright-fuzz-")) / "input"
_EMPTY = projects.plain(pieces=0)


def quantity(data: bytes) -> bool:
    """A length, a weight, an amount of money."""
    text = data.decode("utf-8", "replace")
    taken = False
    for bare in ("in", "cm", "mm"):
        try:
            length = read_length(text, bare=bare, fractions_need_unit=bare == "cm", zero=True, minus=True)
        except BadQuantity as error:
            sentence(error)
            continue
        taken = True
        assert Length.from_text(length.text) == length, length.text
        assert abs(float(length.exact_mm) - float(length.mm)) <= 1e-9 * max(1, abs(float(length.mm)))
        assert abs(length.mm) <= 100_000
    try:
        mass = read_mass(text)
        assert Mass.from_text(mass.text) == mass
        assert 0 < mass.kg <= 1000
        taken = True
    except BadQuantity as error:
        sentence(error)
    try:
        amount = read_money(text)
        assert amount >= 0
        assert -amount.as_tuple().exponent <= 2  # type: ignore[operator]
        taken = True
    except BadQuantity as error:
        sentence(error)
    return taken


def table(data: bytes) -> bool:
    """An inventory table; what is taken is written, read again, and put into a project."""
    _FILE.write_bytes(data)
    try:
        read = inventory.read_table(_FILE, "metric")
    except ProjectFileError as error:
        sentence(error)
        return False
    project = inventory.add_to(_EMPTY, read, _FILE.parent)
    _through(project, whole=len(project.pieces) < 50)
    written = inventory.table_bytes(project, _FILE.parent, _FILE.parent)
    _FILE.write_bytes(written)
    again = inventory.add_to(_EMPTY, inventory.read_table(_FILE, "metric"), _FILE.parent)
    assert again.pieces == project.pieces
    return True


def short_table(data: bytes) -> bool:
    """Obstacles and prices."""
    _FILE.write_bytes(data)
    taken = False
    for read in (lambda: lists.read_obstacles(_FILE, "imperial", 5), lambda: lists.read_prices(_FILE)):
        try:
            read()
            taken = True
        except ProjectFileError as error:
            sentence(error)
    return taken


def project_file(data: bytes) -> bool:
    """A project file; what is taken is written, read again, checked and reported."""
    try:
        project = schema.decode(data, "wall.wallwright")
    except ProjectFileError as error:
        sentence(error)
        return False
    _through(project, whole=True)
    return True


def _through(project: Project, *, whole: bool) -> None:
    encoded = schema.encode(project)
    assert schema.decode(encoded, "again") == project
    if not whole:
        return
    findings = check(project)
    lines = lines_of(findings, project)
    assert all("\n" not in line for line in lines)
    answer: dict[str, Any] = build(project, project.arrangement, as_plain(findings, project))
    json.dumps(answer, allow_nan=False)


def seeds_of(name: str) -> list[bytes]:
    """Whole and well-formed inputs to start from: the samples, the old files, what the grammar describes."""
    if name == "quantity":
        return [text.encode() for text in (*TYPED, *NUMBERS)]
    if name == "table":
        csv = (ROOT / "samples" / "second-hand-frames.csv").read_bytes()
        short = b"name,width,height\nBoats,40 cm,50 cm\n"
        units = b"Name;WIDTH [mm];height [in];hanger;count;colour\nFern;210;8 1/2;strips;2;green\n"
        written = inventory.table_bytes(projects.full(), ROOT, ROOT)
        return [csv, short, units, written]
    if name == "typed_line":
        return list(file_targets.LINES)
    if name == "picture":
        return file_targets.pictures()
    if name == "packed_copy":
        return file_targets.packed_copies()
    if name == "short_table":
        return [
            b"kind,name,left,bottom,width,height,depth,margin\nsofa,Sofa,60 cm,0,2 m,85,90,\nswitch,,-1,1 m,8,8,0,0\n",
            b"item,each,pack,in-drawer\nhook-slim,2.10,4,3\nplaster,1,,\n",
        ]
    files = [*(ROOT / "samples").glob("*.wallwright"), *(ROOT / "tests" / "old_files").glob("*.wallwright")]
    return [path.read_bytes() for path in sorted(files)] + [
        schema.encode(projects.plain()),
        schema.encode(projects.full()),
    ]


TARGETS: dict[str, Target] = {
    "typed_line": file_targets.typed_line,
    "picture": file_targets.picture,
    "packed_copy": file_targets.packed_copy,
    "quantity": quantity,
    "table": table,
    "short_table": short_table,
    "project_file": project_file,
}


def forget() -> None:
    """Removes the scratch file."""
    _FILE.unlink(missing_ok=True)
    _FILE.parent.rmdir()
