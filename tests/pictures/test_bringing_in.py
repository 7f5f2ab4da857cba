"""Many pictures at once: all come, bad ones as sentences; stopping stops."""

import hashlib
import io
import threading
from pathlib import Path

from PIL import Image

from composer.pictures.bringing_in import Brought, bring_in
from composer.pictures.previews import Previews
from tests.pictures.files import CHELSEA, CHINA, COFFEE, FLOWER, HUBBLE, LOGO, MOON, real


def test_every_file_comes_once_whatever_is_wrong_with_it(tmp_path: Path) -> None:
    good = [real(which) for which in (CHINA, FLOWER, COFFEE, CHELSEA, HUBBLE, LOGO, MOON)]
    (tmp_path / "words.jpg").write_bytes(b"words")
    (tmp_path / "cut.jpg").write_bytes(real(CHINA).read_bytes()[:-300])
    bad = [tmp_path / "words.jpg", tmp_path / "cut.jpg", tmp_path / "gone.jpg", tmp_path]
    found = {one.path: one for one in bring_in([*good, *bad], Previews(tmp_path / "cache"), 256, threads=3)}
    assert set(found) == {*good, *bad}
    for path in good:
        one = found[path]
        data = path.read_bytes()
        assert (one.sha256, one.size_bytes, one.refused) == (hashlib.sha256(data).hexdigest(), len(data), "")
        assert one.facts is not None and one.preview is not None
        with Image.open(io.BytesIO(one.preview)) as preview:
            assert max(preview.size) == 256
            shape = one.facts.pixels[0] / one.facts.pixels[1]
            assert abs(preview.width / preview.height - shape) < 0.02
    for path in bad:
        assert (found[path].facts, found[path].preview) == (None, None)
        assert found[path].refused.endswith(".")


def test_stopping_brings_no_more_but_what_is_ready(tmp_path: Path) -> None:
    stop = threading.Event()
    paths = [real(CHINA)] * 200
    found: list[Brought] = []
    for one in bring_in(paths, Previews(tmp_path / "cache"), 256, threads=2, cancelled=stop.is_set):
        found.append(one)
        stop.set()
    assert 1 <= len(found) <= 4
    assert list(bring_in(paths, Previews(tmp_path / "cache"), 256, cancelled=lambda: True)) == []


def test_leaving_early_ends_the_threads(tmp_path: Path) -> None:
    before = threading.active_count()
    brought = bring_in([real(CHINA), real(FLOWER)] * 20, Previews(tmp_path / "cache"), 256, threads=2)
    next(brought)
    brought.close()
    assert threading.active_count() == before


def test_no_file_at_all(tmp_path: Path) -> None:
    assert list(bring_in([], Previews(tmp_path / "cache"), 256)) == []
