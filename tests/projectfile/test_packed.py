"""A packed copy opens elsewhere; an archive that somebody meddled with opens nowhere."""

import hashlib
import io
import stat
import struct
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest

from composer.model import Arrangement, Frame, Picture, PictureUse, Piece, Project, Wall
from composer.pictures.whereabouts import whereabouts
from composer.projectfile import schema, store
from composer.projectfile.errors import CannotRead, ProjectFileError
from composer.projectfile.packed import BadArchive, Stopped, pack, unpack
from composer.projectfile.picture_links import read_link
from composer.units import Length
from tests.pictures.files import CHINA, COFFEE, real


def project_in(folder: Path) -> Project:
    """Two pictures beside and above the project, one of them shown in two pieces, and one that is gone."""
    (folder / "home").mkdir(parents=True)
    (folder / "elsewhere").mkdir()
    (folder / "home" / "Łódź bei Nacht.jpg").write_bytes(real(CHINA).read_bytes())
    (folder / "elsewhere" / "coffee.png").write_bytes(real(COFFEE).read_bytes())
    linked = [
        read_link(Picture(key="i1", path="Łódź bei Nacht.jpg"), folder / "home"),
        read_link(Picture(key="i2", path="../elsewhere/coffee.png", source="a friend"), folder / "home"),
        Picture(key="i3", path="gone.jpg", sha256="0" * 64, size_bytes=5),
    ]
    side = Length.from_text("30 cm")
    pieces = tuple(
        Piece(
            key=f"p{10 + n}",
            number=n,
            name=f"piece {n}",
            frame=Frame(width=side, height=side),
            uses=(PictureUse(picture=f"i{min(n, 3)}"),),
            current_use=0,
        )
        for n in (1, 2, 3)
    )
    project = Project(
        title="home",
        next_key=100,
        next_number=10,
        walls=(Wall(key="w50", name="wall", width=Length.from_text("3 m"), height=Length.from_text("2.5 m")),),
        pieces=pieces,
        pictures=tuple(linked),
        arrangements=(Arrangement(key="h51", name="first", gap=Length.from_text("5 cm")),),
        current_arrangement="h51",
    )
    store.save(folder / "home" / "wall.wallwright", project)
    return project


def test_a_packed_copy_opens_on_another_path(tmp_path: Path) -> None:
    project = project_in(tmp_path / "old")
    archive = tmp_path / "Wall of ours.zip"
    packed = pack(project, tmp_path / "old" / "home", archive)
    assert [picture.key for picture in packed.pictures] == ["i1", "i2"]
    assert [picture.key for picture in packed.missing] == ["i3"]
    assert zipfile.is_zipfile(archive)
    (tmp_path / "old").rename(tmp_path / "away")
    opened = store.load(unpack(archive, tmp_path / "new place"))
    assert opened.path == tmp_path / "new place" / "wall-of-ours.wallwright"
    assert (opened.project.pieces, opened.project.title) == (project.pieces, "home")
    assert opened.project.pictures[1].source == "a friend"
    states = [whereabouts(picture, opened.path.parent).state for picture in opened.project.pictures]
    assert states == ["here", "here", "missing"]
    first = opened.path.parent / opened.project.pictures[0].path
    assert first.read_bytes() == real(CHINA).read_bytes()
    assert sorted(path.name for path in (tmp_path / "new place" / "pictures").iterdir()) == [
        "i1_lodz-bei-nacht.jpg", "i2_coffee.png",
    ]  # fmt: skip


def test_the_same_project_gives_the_same_archive_and_any_tool_reads_it(tmp_path: Path) -> None:
    project = project_in(tmp_path / "old")
    one, other = tmp_path / "a.zip", tmp_path / "b" / "a.zip"
    other.parent.mkdir()
    for target in (one, other):
        pack(project, tmp_path / "old" / "home", target)
    assert one.read_bytes() == other.read_bytes()
    with zipfile.ZipFile(one) as archive:
        assert archive.testzip() is None
        assert all(name.isascii() for name in archive.namelist())


def test_stopping_and_a_missing_folder_leave_nothing(tmp_path: Path) -> None:
    project = project_in(tmp_path / "old")
    with pytest.raises(Stopped):
        pack(project, tmp_path / "old" / "home", tmp_path / "a.zip", lambda done, _: done < 1)
    with pytest.raises(ProjectFileError):
        pack(project, tmp_path / "old" / "home", tmp_path / "nowhere" / "a.zip")
    assert [path.name for path in tmp_path.iterdir()] == ["old"]


def test_a_folder_that_is_there_is_not_touched(tmp_path: Path) -> None:
    project = project_in(tmp_path / "old")
    pack(project, tmp_path / "old" / "home", tmp_path / "a.zip")
    (tmp_path / "taken").mkdir()
    (tmp_path / "taken" / "mine.txt").write_text("mine")
    with pytest.raises(BadArchive):
        unpack(tmp_path / "a.zip", tmp_path / "taken")
    assert [path.name for path in (tmp_path / "taken").iterdir()] == ["mine.txt"]
    (tmp_path / "empty").mkdir()
    assert unpack(tmp_path / "a.zip", tmp_path / "empty").is_file()


def test_what_a_system_adds_is_left_inside(tmp_path: Path) -> None:
    project = project_in(tmp_path / "old")
    pack(project, tmp_path / "old" / "home", tmp_path / "a.zip")
    with zipfile.ZipFile(tmp_path / "a.zip", "a") as archive:
        archive.writestr("__MACOSX/._wall", b"x")
        archive.writestr("pictures/.DS_Store", b"x")
        archive.writestr("run-me.sh", b"x")
    unpacked = unpack(tmp_path / "a.zip", tmp_path / "new")
    assert sorted(path.name for path in unpacked.parent.rglob("*")) == [
        "a.wallwright", "i1_lodz-bei-nacht.jpg", "i2_coffee.png", "pictures",
    ]  # fmt: skip


Meddle = Callable[[zipfile.ZipFile], None]


def written(name: str, data: bytes = b"x", mode: int = stat.S_IFREG | 0o644) -> Meddle:
    def meddle(archive: zipfile.ZipFile) -> None:
        info = zipfile.ZipInfo(name)
        info.filename = name  # the library tidies some names up when it is made
        info.external_attr = mode << 16
        archive.writestr(info, data)

    return meddle


def squeezed(name: str, size: int) -> Meddle:
    def meddle(archive: zipfile.ZipFile) -> None:
        archive.writestr(name, bytes(size), zipfile.ZIP_DEFLATED, 9)

    return meddle


def squeezed_oddly(archive: zipfile.ZipFile) -> None:
    archive.writestr("odd.bin", b"x" * 100, zipfile.ZIP_BZIP2)


def many(archive: zipfile.ZipFile) -> None:
    for number in range(5001):
        archive.writestr(f"{number}", b"")


ATTACKS: dict[str, Meddle] = {
    "upwards": written("../evil.txt"),
    "upwards inside": written("pictures/../../evil.txt"),
    "absolute": written("/evil.txt"),
    "drive": written("C:/evil.txt"),
    "backslash": written("..\\evil.txt"),
    "stream": written("pictures/a.jpg:evil"),
    "device name": written("pictures/CON.jpg"),
    "trailing dot": written("pictures/evil."),
    "control sign": written("pictures/e\x1bvil"),
    "link": written("pictures/link", b"../../evil", stat.S_IFLNK | 0o777),
    "pipe": written("pictures/pipe", b"", stat.S_IFIFO | 0o644),
    "same name in capitals": written("A.WALLWRIGHT"),
    "second project": written("b.wallwright"),
    "bomb": squeezed("bomb.bin", 300_000_000),
    "unusual compression": squeezed_oddly,
    "too many": many,
    "very long name": written("x" * 300),
}


@pytest.mark.parametrize("attack", ATTACKS)
@pytest.mark.filterwarnings("ignore:Duplicate name")
def test_meddled_archives_are_refused_whole(tmp_path: Path, attack: str) -> None:
    project = project_in(tmp_path / "old")
    pack(project, tmp_path / "old" / "home", tmp_path / "a.zip")
    with zipfile.ZipFile(tmp_path / "a.zip", "a") as archive:
        ATTACKS[attack](archive)
    before = sorted(tmp_path.rglob("*"))
    with pytest.raises(BadArchive) as refused:
        unpack(tmp_path / "a.zip", tmp_path / "new")
    sentence = str(refused.value)
    assert "a.zip" in sentence and sentence.endswith(".") and sentence.isprintable()
    assert sorted(tmp_path.rglob("*")) == before


def damaged(data: bytes, how: str) -> bytes:
    if how == "cut off":
        return data[: len(data) // 2]
    if how == "empty":
        return b""
    if how == "no archive":
        return b"PK\x03\x04 and nothing that follows"
    if how == "another picture":
        at = data.index(b"\xff\xd8\xff") + 5000
        return data[:at] + bytes([data[at] ^ 1]) + data[at + 1 :]
    assert how == "encrypted"
    changed = bytearray(data)
    for magic, offset in ((b"PK\x03\x04", 6), (b"PK\x01\x02", 8)):
        at = changed.index(magic)
        changed[at + offset] |= 1
    return bytes(changed)


@pytest.mark.parametrize("how", ["cut off", "empty", "no archive", "another picture", "encrypted"])
def test_damaged_archives_are_refused(tmp_path: Path, how: str) -> None:
    project = project_in(tmp_path / "old")
    pack(project, tmp_path / "old" / "home", tmp_path / "a.zip")
    (tmp_path / "a.zip").write_bytes(damaged((tmp_path / "a.zip").read_bytes(), how))
    with pytest.raises(BadArchive):
        unpack(tmp_path / "a.zip", tmp_path / "new")
    assert not (tmp_path / "new").exists()


def test_a_picture_that_lies_about_its_content_is_refused(tmp_path: Path) -> None:
    project = project_in(tmp_path / "old")
    pictures = (Picture(key="i1", path="pictures/a.jpg", sha256=hashlib.sha256(b"told").hexdigest()),)
    pieces = tuple(piece for piece in project.pieces if piece.number == 1)
    from msgspec.structs import replace

    told = replace(project, pictures=pictures, pieces=pieces)
    with zipfile.ZipFile(tmp_path / "a.zip", "w") as archive:
        archive.writestr("pictures/a.jpg", b"something else")
        archive.writestr("a.wallwright", schema.encode(told))
    with pytest.raises(BadArchive, match="another picture"):
        unpack(tmp_path / "a.zip", tmp_path / "new")


def test_a_project_s_own_paths_cannot_lead_out(tmp_path: Path) -> None:
    """A picture named ../x in the project is only taken if the archive has such an entry, which is refused."""
    project = project_in(tmp_path / "old")
    with zipfile.ZipFile(tmp_path / "a.zip", "w") as archive:
        archive.writestr("a.wallwright", schema.encode(project))
    unpacked = unpack(tmp_path / "a.zip", tmp_path / "new")
    assert [path.name for path in unpacked.parent.iterdir()] == ["a.wallwright"]


def test_an_entry_longer_than_it_says_is_refused(tmp_path: Path) -> None:
    project = project_in(tmp_path / "old")
    stored = io.BytesIO()
    with zipfile.ZipFile(stored, "w") as archive:
        archive.writestr("a.wallwright", schema.encode(project), zipfile.ZIP_DEFLATED)
    data = bytearray(stored.getvalue())
    at = data.index(b"PK\x01\x02")
    (size,) = struct.unpack_from("<I", data, at + 24)
    struct.pack_into("<I", data, at + 24, size - 10)  # the directory's word for the unpacked length
    (tmp_path / "a.zip").write_bytes(data)
    with pytest.raises(ProjectFileError):
        unpack(tmp_path / "a.zip", tmp_path / "new")
    assert not (tmp_path / "new").exists()


def test_a_missing_archive_is_said(tmp_path: Path) -> None:
    with pytest.raises(CannotRead):
        unpack(tmp_path / "gone.zip", tmp_path / "new")
    with pytest.raises(CannotRead):
        unpack(tmp_path, tmp_path / "new")
