"""Pictures looked up, found again by content, and kept as previews outside the project."""

import io
import os
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from composer.model import Picture
from composer.pictures.decoding import Stopped
from composer.pictures.previews import Previews
from composer.pictures.probing import with_facts
from composer.pictures.refused import BadPicture
from composer.pictures.states import PictureStates
from composer.pictures.whereabouts import find_moved, pictures_in, whereabouts
from tests.pictures.files import CHINA, COFFEE, FLOWER, HUBBLE, ramp, real, saved


def linked(folder: Path, name: str, which: tuple[str, str], key: str = "i1") -> Picture:
    (folder / name).parent.mkdir(parents=True, exist_ok=True)
    (folder / name).write_bytes(real(which).read_bytes())
    return with_facts(Picture(key=key, path=name), folder / name)


def test_here_changed_missing_bad_and_unread(tmp_path: Path) -> None:
    picture = linked(tmp_path, "china.jpg", CHINA)
    path = tmp_path / "china.jpg"
    assert whereabouts(picture, tmp_path).state == "here"
    assert whereabouts(Picture(key="i2", path="china.jpg"), tmp_path).state == "unread"
    # Another picture of the very same length must be noticed, too.
    data = bytearray(path.read_bytes())
    at = data.index(b"JFIF") + 9  # the density in its head
    data[at] ^= 1
    path.write_bytes(data)
    assert whereabouts(picture, tmp_path).state == "changed"
    path.write_bytes(real(FLOWER).read_bytes())
    found = whereabouts(picture, tmp_path)
    assert (found.state, found.facts and found.facts.pixels) == ("changed", (640, 427))
    path.write_bytes(real(CHINA).read_bytes()[:-100])
    found = whereabouts(picture, tmp_path)
    assert (found.state, found.facts) == ("bad", None)
    assert "china.jpg" in found.refused
    path.unlink()
    assert whereabouts(picture, tmp_path).state == "missing"


def test_moved_and_renamed_files_are_found_by_content(tmp_path: Path) -> None:
    pictures = [
        linked(tmp_path / "home", "china.jpg", CHINA, "i1"),
        linked(tmp_path / "home", "coffee.png", COFFEE, "i2"),
        linked(tmp_path / "home", "hubble.jpg", HUBBLE, "i3"),
        Picture(key="i4", path="never-read.jpg"),
    ]
    place = tmp_path / "photos" / "2019" / "autumn"
    place.mkdir(parents=True)
    (tmp_path / "home" / "china.jpg").rename(place / "IMG 0001.JPG")
    (tmp_path / "home" / "coffee.png").rename(tmp_path / "photos" / "cup.png")
    (tmp_path / "home" / "hubble.jpg").unlink()
    (place / "flower.jpg").write_bytes(real(FLOWER).read_bytes())
    (place / "same-length.png").write_bytes(bytes(real(COFFEE).stat().st_size))
    seen: list[tuple[int, int]] = []
    found = find_moved(pictures, tmp_path / "photos", progress=lambda done, all_: seen.append((done, all_)))
    assert found == {"i1": place / "IMG 0001.JPG", "i2": tmp_path / "photos" / "cup.png"}
    # Only files of a wanted length were read: the three of them, not the flower.
    assert seen[-1] == (3, 3)
    assert find_moved(pictures, tmp_path / "photos", cancelled=lambda: True) == {}


@pytest.mark.skipif(not hasattr(os, "symlink") or os.name == "nt", reason="needs links")
def test_a_folder_that_links_to_itself_ends(tmp_path: Path) -> None:
    picture = linked(tmp_path / "home", "china.jpg", CHINA)
    (tmp_path / "home" / "again").symlink_to(tmp_path / "home")
    assert find_moved([picture], tmp_path / "home") == {"i1": tmp_path / "home" / "china.jpg"}


def test_what_is_dropped(tmp_path: Path) -> None:
    for name in ("b.JPG", "a.png", "notes.txt", "sub/c.webp", ".hidden/d.jpg", "sub/.e.jpg", "f.heic"):
        (tmp_path / "folder" / name).parent.mkdir(parents=True, exist_ok=True)
        (tmp_path / "folder" / name).write_bytes(b"x")
    single = tmp_path / "folder" / "f.heic"
    dropped = pictures_in([tmp_path / "folder", single])
    # A file dropped by itself is kept whatever it is, so that a sentence can say why it is refused.
    assert [path.relative_to(tmp_path / "folder").as_posix() for path in dropped] == [
        "a.png",
        "b.JPG",
        "sub/c.webp",
        "f.heic",
    ]


def test_previews_are_kept_by_content(tmp_path: Path) -> None:
    path = saved(ramp(1600, 800), tmp_path / "ramp.png")
    previews = Previews(tmp_path / "cache")
    made = previews.make(path, 400)
    with Image.open(io.BytesIO(made)) as image:
        assert image.size == (512, 256)  # the next larger step
        corners = np.asarray(image)[[0, 0, -1, -1], [0, -1, 0, -1], :2]
    # Red grows to the right, green downwards.
    assert np.abs(corners.astype(int) - [[0, 0], [255, 0], [0, 255], [255, 255]]).max() <= 6
    twin = tmp_path / "other name.jpg"
    path.rename(twin)
    (kept,) = [file for file in (tmp_path / "cache").rglob("*") if file.is_file()]
    kept_at = kept.stat().st_mtime_ns
    assert previews.make(twin, 512) == made
    assert [file for file in (tmp_path / "cache").rglob("*") if file.is_file()] == [kept]
    assert kept.stat().st_mtime_ns >= kept_at
    saved(ramp(800, 1600), twin, format="PNG")
    with Image.open(io.BytesIO(previews.make(twin, 512))) as image:
        assert image.size == (256, 512)


def test_a_half_written_preview_is_made_again(tmp_path: Path) -> None:
    previews = Previews(tmp_path / "cache")
    made = previews.make(real(CHINA), 256)
    (kept,) = [file for file in (tmp_path / "cache").rglob("*") if file.is_file()]
    kept.write_bytes(made[:100])
    assert previews.make(real(CHINA), 256) == made


def test_a_cache_that_cannot_be_written_is_no_reason_to_fail(tmp_path: Path) -> None:
    (tmp_path / "cache").write_text("a file is in the way")
    assert Previews(tmp_path / "cache").make(real(CHINA), 256).startswith(b"\xff\xd8")


def test_the_cache_stays_small_and_keeps_what_was_looked_at_last(tmp_path: Path) -> None:
    previews = Previews(tmp_path / "cache", most_bytes=1000)
    for number in range(10):
        file = tmp_path / "cache" / "ab" / f"{number}.jpg"
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_bytes(bytes(200))
        os.utime(file, (number, number))
    previews.sweep()
    assert sorted(file.name for file in (tmp_path / "cache" / "ab").iterdir()) == ["6.jpg", "7.jpg", "8.jpg", "9.jpg"]


def test_a_preview_can_be_stopped_and_a_bad_file_is_a_sentence(tmp_path: Path) -> None:
    previews = Previews(tmp_path / "cache")
    with pytest.raises(Stopped):
        previews.make(real(CHINA), 256, cancelled=lambda: True)
    (tmp_path / "bad.jpg").write_bytes(b"words")
    with pytest.raises(BadPicture):
        previews.make(tmp_path / "bad.jpg", 256)
    assert not (tmp_path / "cache").exists()


def test_the_cache_lies_outside_every_project(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "cache"))
    from platformdirs import user_cache_path

    assert Previews().folder == user_cache_path("wallwright") / "pictures"


def test_states_are_known_without_reading_once_they_were_looked_at(tmp_path: Path) -> None:
    picture = linked(tmp_path, "china.jpg", CHINA)
    states = PictureStates()
    assert states.state(picture, tmp_path) == ""
    assert states.pending() == ((picture, tmp_path),)
    assert states.pending() == ()
    assert states.look(picture, tmp_path) == ""
    assert states.state(picture, tmp_path) == ""
    assert states.pending() == ()
    path = tmp_path / "china.jpg"
    path.write_bytes(real(FLOWER).read_bytes())
    os.utime(path, (1, 1))
    assert states.state(picture, tmp_path) == ""  # not looked at yet
    assert states.pending() == ((picture, tmp_path),)
    assert states.look(picture, tmp_path) == "changed"
    assert states.state(picture, tmp_path) == "changed"
    # Linked anew it is right again, although the file stayed the same.
    anew = with_facts(picture, path)
    assert states.state(anew, tmp_path) == ""
    assert states.look(anew, tmp_path) == ""
    path.write_bytes(b"words")
    os.utime(path, (2, 2))
    assert "china.jpg" in states.look(anew, tmp_path)
    path.unlink()
    assert states.state(anew, tmp_path) == "missing"
    assert states.look(anew, tmp_path) == "missing"
