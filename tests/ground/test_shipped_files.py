"""What the program ships is found: in the checkout, in a wheel, in a source archive."""

import subprocess
import sys
import tarfile
import zipfile
from pathlib import Path

import pytest

from composer.resources import resource, sample

ROOT = Path(__file__).parents[2]


def files_below(folder: Path) -> set[str]:
    return {
        path.relative_to(folder).as_posix()
        for path in folder.rglob("*")
        if path.is_file()
        and not path.name.startswith(".")
        and path.suffix != ".bak"
        and "__pycache__" not in path.parts
    }


def test_every_resource_and_sample_opens_through_the_finder() -> None:
    for name in sorted(files_below(ROOT / "resources")):
        assert resource(name).read_bytes() == (ROOT / "resources" / name).read_bytes()
    for name in sorted(files_below(ROOT / "samples")):
        assert sample(name).read_bytes() == (ROOT / "samples" / name).read_bytes()


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A wheel and a source archive, built from the checkout without a network."""
    folder = tmp_path_factory.mktemp("dist")
    subprocess.run(
        [sys.executable, "-m", "build", "--no-isolation", "--wheel", "--sdist", "--outdir", str(folder), str(ROOT)],
        check=True,
        capture_output=True,
        timeout=240,
    )
    return folder


def test_the_wheel_holds_all_resources_samples_and_code(built: Path) -> None:
    (wheel,) = built.glob("*.whl")
    with zipfile.ZipFile(wheel) as archive:
        names = {name for name in archive.namelist() if not name.endswith("/")}
        inside = {
            name.removeprefix("composer/_resources/") for name in names if name.startswith("composer/_resources/")
        }
        assert inside == files_below(ROOT / "resources")
        inside = {name.removeprefix("composer/_samples/") for name in names if name.startswith("composer/_samples/")}
        assert inside == files_below(ROOT / "samples")
        code = {f"composer/{name}" for name in files_below(ROOT / "composer") if name.endswith(".py")}
        assert code <= names
        assert {name.split("/")[0] for name in names if ".dist-info/" not in name} == {"composer"}
        (metadata,) = (name for name in names if name.endswith(".dist-info/METADATA"))
        told = archive.read(metadata).decode()
        (points,) = (name for name in names if name.endswith("entry_points.txt"))
        entries = archive.read(points).decode()
    assert "License-Expression: MIT" in told  # PEP 639
    assert "Requires-Python: >=3.11" in told
    assert "[console_scripts]\nwallwright = " in entries
    assert "[gui_scripts]\nwallwright-window = " in entries


def test_the_source_archive_can_be_tested(built: Path) -> None:
    (source,) = built.glob("*.tar.gz")
    with tarfile.open(source) as archive:
        names = {name.split("/", 1)[1] for name in archive.getnames() if "/" in name}
    for needed in ("pyproject.toml", "README.md", "DEVELOPERS.md", "tests/check.py", "tests/conftest.py"):
        assert needed in names
    assert {f"resources/{name}" for name in files_below(ROOT / "resources")} <= names
    assert {f"samples/{name}" for name in files_below(ROOT / "samples")} <= names


def test_an_installed_wheel_finds_its_files(built: Path, tmp_path: Path) -> None:
    """The wheel is unpacked, as an installer does, far from the checkout."""
    (wheel,) = built.glob("*.whl")
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(tmp_path)
    script = (
        "import composer; from composer.resources import resource, sample;"
        "print(composer.__file__); print(resource('catalogue/strips.json').is_file());"
        "print(sample('second-hand-frames.csv').is_file())"
    )
    found = subprocess.run(
        [sys.executable, "-I", "-c", f"import sys; sys.path.insert(0, {str(tmp_path)!r}); {script}"],
        cwd=tmp_path,
        check=True,
        capture_output=True,
        text=True,
        timeout=60,
    ).stdout.split()
    assert Path(found[0]).is_relative_to(tmp_path)
    assert found[1:] == ["True", "True"]
