"""More of what is fuzzed: picture files, packed copies, and lines typed or pasted into the window."""

import io
import tempfile
from pathlib import Path

import msgspec
from PIL import Image

from composer.editing.quick_row import read_row
from composer.model import Picture
from composer.pictures.opening import opened
from composer.pictures.probing import probe
from composer.pictures.refused import BadPicture
from composer.projectfile import inventory, store
from composer.projectfile.errors import ProjectFileError
from composer.projectfile.packed import pack, unpack
from composer.units import BadQuantity
from tests.projectfile import projects

_SCRATCH = tempfile.TemporaryDirectory(prefix="wallwright-fuzz-")
_FOLDER = Path(_SCRATCH.name)


def sentence(error: Exception) -> None:
    """A refusal is one plain line that says something."""
    text = str(error)
    if not text.strip() or "\n" in text or "Traceback" in text or len(text) > 3000:
        raise AssertionError(f"a refusal that is no sentence: {text[:200]!r}") from error


def typed_line(data: bytes) -> bool:
    """A quick row, and the same text pasted as a table."""
    text, taken = data.decode("utf-8", "replace"), False
    try:
        row = read_row(text, bare="cm")
        assert row.width.mm > 0
        assert row.height.mm > 0
        taken = True
    except BadQuantity as error:
        sentence(error)
    try:
        inventory.read_text(text, "imperial", _FOLDER)
        taken = True
    except ProjectFileError as error:
        sentence(error)
    return taken


def picture(data: bytes) -> bool:
    """A picture's file: its head, and its pixels where the head is believed."""
    path = _FOLDER / "picture"
    path.write_bytes(data)
    try:
        facts = probe(path)
        assert min(facts.pixels) >= 1
    except BadPicture as error:
        sentence(error)
        return False
    try:
        with opened(path) as found:
            found.image.draft("RGB", (64, 64))
    except BadPicture as error:
        sentence(error)
    return True


def packed_copy(data: bytes) -> bool:
    """A packed copy: unpacked whole into its folder, or refused with nothing left behind."""
    path, folder = _FOLDER / "copy.zip", _FOLDER / "unpacked"
    path.write_bytes(data)
    before = {entry.name for entry in _FOLDER.iterdir()}
    try:
        found = unpack(path, folder)
    except ProjectFileError as error:
        sentence(error)
        assert {entry.name for entry in _FOLDER.iterdir()} == before
        return False
    store.load(found)
    for entry in sorted(folder.rglob("*"), reverse=True):
        assert not entry.is_symlink()
        entry.rmdir() if entry.is_dir() else entry.unlink()
    folder.rmdir()
    assert {entry.name for entry in _FOLDER.iterdir()} == before
    return True


LINES = (
    b"40 x 50 strips \xe2\x80\x9cboats\xe2\x80\x9d",
    b'23 5/8" x 17 3/4 wire 4 1/2 in Harbour',
    b"61,5 cm x 45,8 cm d-rings 58 mm 53 cm 2.4 kg Two boats",
    b"name\twidth\theight\nBoats\t40 cm\t50 cm\n",
)


def pictures() -> list[bytes]:
    """Small pictures of every format that is read, made by Pillow."""
    image = Image.linear_gradient("L").resize((40, 30)).convert("RGB")
    made = []
    for kind, options in (
        ("JPEG", {"quality": 70, "dpi": (300, 300)}),
        ("PNG", {}),
        ("TIFF", {"compression": "tiff_lzw"}),
        ("TIFF", {}),
        ("WEBP", {"lossless": True}),
    ):
        file = io.BytesIO()
        image.save(file, kind, **options)
        made.append(file.getvalue())
    return made


def packed_copies() -> list[bytes]:
    """Packed copies of a project with two pictures, and of one with none."""
    made = []
    for number, data in enumerate(pictures()[:2]):
        (_FOLDER / f"{number}.img").write_bytes(data)
    linked = msgspec.structs.replace(
        projects.plain(), pictures=tuple(Picture(key=f"i{number + 3}", path=f"{number}.img") for number in range(2))
    )
    for project in (linked, projects.plain()):
        target = _FOLDER / "made.zip"
        pack(project, _FOLDER, target)
        made.append(target.read_bytes())
        target.unlink()
    return made
