"""What a file's head says, and every file that must be refused with a sentence."""

import hashlib
import io
import os
import struct
import subprocess
import sys
import tracemalloc
import zlib
from pathlib import Path

import pytest
from PIL import Image, ImageCms

from composer.model import Picture
from composer.pictures.decoding import decode_within
from composer.pictures.probing import probe, remark_sentence, with_facts
from composer.pictures.refused import BadPicture
from tests.pictures.files import (
    CHELSEA,
    CHINA,
    COFFEE,
    FLOWER,
    HUBBLE,
    LOGO,
    MOON,
    RETINA,
    chunk,
    jpeg_with_thumbnail,
    one_bit_png,
    ramp,
    real,
    saved,
    webp_that_claims,
)


# Sizes as the packages' own documentation and an image viewer give them.
@pytest.mark.parametrize(
    ("which", "kind", "pixels", "mode"),
    [
        (RETINA, "JPEG", (1411, 1411), "RGB"),
        (HUBBLE, "JPEG", (1000, 872), "RGB"),
        (COFFEE, "PNG", (600, 400), "RGB"),
        (CHELSEA, "PNG", (451, 300), "RGB"),
        (MOON, "PNG", (512, 512), "L"),
        (LOGO, "PNG", (500, 500), "RGBA"),
        (CHINA, "JPEG", (640, 427), "RGB"),
        (FLOWER, "JPEG", (640, 427), "RGB"),
    ],
)
def test_real_pictures(which: tuple[str, str], kind: str, pixels: tuple[int, int], mode: str) -> None:
    facts = probe(real(which))
    assert (facts.kind, facts.pixels, facts.mode) == (kind, pixels, mode)


# JEITA CP-3451 (Exif 2.2), p. 18: orientations 5 to 8 swap width and height.
@pytest.mark.parametrize("orientation", range(1, 9))
def test_orientation(tmp_path: Path, orientation: int) -> None:
    exif = Image.Exif()
    exif[0x0112] = orientation
    path = saved(ramp(3, 2), tmp_path / "small.jpg", exif=exif)
    facts = probe(path)
    assert facts.stored_pixels == (3, 2)
    assert facts.pixels == ((3, 2) if orientation <= 4 else (2, 3))
    assert decode_within(path, 8).size == facts.pixels


@pytest.mark.parametrize("orientation", range(1, 9))
def test_a_turned_picture_stands_upright(tmp_path: Path, orientation: int) -> None:
    # What each value means (same page): stored pictures made by the inverse turn, written out by hand.
    stored = {
        1: [],
        2: [Image.Transpose.FLIP_LEFT_RIGHT],
        3: [Image.Transpose.ROTATE_180],
        4: [Image.Transpose.FLIP_TOP_BOTTOM],
        5: [Image.Transpose.TRANSPOSE],
        6: [Image.Transpose.ROTATE_90],  # shown after a quarter turn clockwise
        7: [Image.Transpose.TRANSVERSE],
        8: [Image.Transpose.ROTATE_270],
    }
    upright = ramp(120, 80)
    image = upright
    for method in stored[orientation]:
        image = image.transpose(method)
    exif = Image.Exif()
    exif[0x0112] = orientation
    path = saved(image, tmp_path / "turned.png", exif=exif)
    seen = decode_within(path, 120)
    assert seen.size == (120, 80)
    assert seen.tobytes() == upright.tobytes()


def test_density_tags_do_not_count_and_png_rounds_them(tmp_path: Path) -> None:
    # PNG stores whole pixels per metre: 300 dpi are 11 811, which is 299.9994 (PNG specification, pHYs).
    fine = saved(ramp(640, 427), tmp_path / "fine.png", dpi=(300, 300))
    coarse = saved(ramp(640, 427), tmp_path / "coarse.png", dpi=(72, 72))
    with Image.open(fine) as image:
        assert image.info["dpi"] == pytest.approx((299.9994, 299.9994), abs=1e-3)
    one, other = probe(fine), probe(coarse)
    assert one.pixels == other.pixels


def test_a_name_that_lies_is_told_and_the_file_read(tmp_path: Path) -> None:
    path = saved(ramp(30, 20), tmp_path / "boats.jpg", format="PNG")
    facts = probe(path)
    assert (facts.kind, facts.pixels, facts.remarks) == ("PNG", (30, 20), ("mislabelled",))
    assert "PNG" in remark_sentence(path.name, facts, "mislabelled")


def test_cmyk_16_bits_transparency_and_several_pages_are_told(tmp_path: Path) -> None:
    image = ramp(30, 20)
    cmyk = saved(image.convert("CMYK"), tmp_path / "ink.jpg")
    deep = saved(Image.new("I;16", (30, 20), 40000), tmp_path / "deep.png")
    clear = saved(Image.new("RGBA", (30, 20), (10, 20, 30, 90)), tmp_path / "clear.webp")
    pages = saved(image, tmp_path / "pages.tif", save_all=True, append_images=[image])
    found = {path.name: probe(path).remarks for path in (cmyk, deep, clear, pages)}
    assert found == {
        "ink.jpg": ("cmyk",),
        "deep.png": ("deep",),
        "clear.webp": ("transparent",),
        "pages.tif": ("frames",),
    }
    for path in (cmyk, deep, clear, pages):
        for remark in found[path.name]:
            assert path.name in remark_sentence(path.name, probe(path), remark)


def test_16_bits_a_colour_are_told_and_printed_with_8(tmp_path: Path) -> None:
    # A PNG written by hand: 2 × 1 pixels of 16 bits, 0x8080 red and 0x4040 green (filter byte 0 before the row).
    head = struct.pack(">IIBBBBB", 2, 1, 16, 2, 0, 0, 0)
    row = b"\0" + struct.pack(">6H", 0x8080, 0, 0, 0, 0x4040, 0)
    body = chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(row)) + chunk(b"IEND", b"")
    path = tmp_path / "deep.png"
    path.write_bytes(b"\x89PNG\r\n\x1a\n" + body)
    assert probe(path).remarks == ("deep",)
    seen = decode_within(path, 8)
    assert [seen.getpixel((x, 0)) for x in (0, 1)] == [(0x80, 0, 0), (0, 0x40, 0)]


def test_a_profile_is_named(tmp_path: Path) -> None:
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    path = saved(ramp(30, 20), tmp_path / "with.jpg", icc_profile=profile)
    assert probe(path).profile == ImageCms.getProfileDescription(ImageCms.ImageCmsProfile(io.BytesIO(profile))).strip()
    damaged = saved(ramp(30, 20), tmp_path / "damaged.jpg", icc_profile=profile[:100])
    assert probe(damaged).profile is None
    assert decode_within(damaged, 30).size == (30, 20)


def jpeg(image: Image.Image, **options: object) -> bytes:
    made = io.BytesIO()
    image.save(made, "JPEG", quality=90, **options)
    return made.getvalue()


def png(image: Image.Image) -> bytes:
    made = io.BytesIO()
    image.save(made, "PNG")
    return made.getvalue()


def webp(image: Image.Image) -> bytes:
    made = io.BytesIO()
    image.save(made, "WEBP", quality=80)
    return made.getvalue()


def tiff(image: Image.Image) -> bytes:
    made = io.BytesIO()
    image.save(made, "TIFF")
    return made.getvalue()


LARGE = ramp(640, 480)

# Each: what the file holds, why it is refused.
HOSTILE: dict[str, tuple[bytes, str]] = {
    "empty.jpg": (b"", "empty"),
    "two-bytes.jpg": (b"\xff\xd8", "not-a-picture"),
    "only-head.jpg": (b"\xff\xd8\xff\xe0", "truncated"),
    "cut.jpg": (jpeg(LARGE)[:-2000], "truncated"),
    "cut-by-two.jpg": (jpeg(LARGE)[:-2], "truncated"),
    "cut-progressive.jpg": (jpeg(LARGE, progressive=True)[:-2000], "truncated"),
    "cut-with-thumbnail.jpg": (jpeg_with_thumbnail(LARGE)[:-2000], "truncated"),
    "cut.png": (png(LARGE)[:-500], "truncated"),
    "cut.webp": (webp(LARGE)[:-500], "truncated"),
    "cut.tif": (tiff(LARGE)[: len(tiff(LARGE)) // 2], "truncated"),
    "text.jpg": (b"These are no pixels at all, only words.", "not-a-picture"),
    "page.jpg": (b"<!DOCTYPE html><html>404</html>", "other-format"),
    "moving.jpg": (b"GIF89a" + bytes(60), "other-format"),
    "old.bmp": (b"BM" + bytes(60), "other-format"),
    "phone.heic": (b"\0\0\0\x18ftypheic" + bytes(60), "other-format"),
    "new.avif": (b"\0\0\0\x18ftypavif" + bytes(60), "other-format"),
    "sheet.pdf": (b"%PDF-1.7\n" + bytes(60), "other-format"),
    "drawing.svg": (b'<svg xmlns="http://www.w3.org/2000/svg"/>', "other-format"),
    "archive.jpg": (b"PK\x03\x04" + bytes(60), "other-format"),
    "bomb.png": (one_bit_png(20000, 20000), "too-large"),
    "bomb.webp": (webp_that_claims(16384, 16384), "too-large"),
    "no-pixels.png": (
        b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", struct.pack(">IIBBBBB", 0, 10, 8, 2, 0, 0, 0)) + chunk(b"IEND", b""),
        "damaged",
    ),
    "noise.png": (b"\x89PNG\r\n\x1a\n" + bytes(range(256)) * 4, "truncated"),
    "noise.tif": (b"II*\0" + bytes([255] * 400), "damaged"),
    "noise.webp": (b"RIFF" + struct.pack("<I", 396) + b"WEBP" + bytes(392), "damaged"),
}


@pytest.mark.filterwarnings("ignore::UserWarning:PIL")
@pytest.mark.parametrize("name", HOSTILE)
def test_hostile_files_are_refused_in_one_sentence(tmp_path: Path, name: str) -> None:
    data, why = HOSTILE[name]
    path = tmp_path / name
    path.write_bytes(data)
    with pytest.raises(BadPicture) as refused:
        probe(path)
    assert refused.value.why == why
    sentence = str(refused.value)
    assert name in sentence
    assert sentence.endswith(".")
    assert "\n" not in sentence
    with pytest.raises(BadPicture):
        decode_within(path, 100)


def test_sound_files_that_look_odd_are_read(tmp_path: Path) -> None:
    sound = {
        "thumbnail.jpg": jpeg_with_thumbnail(LARGE),
        "trailing.jpg": jpeg(LARGE) + bytes(200_000),
        "progressive.jpg": jpeg(LARGE, progressive=True),
        "restarts.jpg": jpeg(LARGE, restart_marker_blocks=4),
        "whole.png": png(LARGE),
        "whole.webp": webp(LARGE),
        "whole.tif": tiff(LARGE),
    }
    for name, data in sound.items():
        (tmp_path / name).write_bytes(data)
        assert probe(tmp_path / name).pixels == (640, 480), name
        assert decode_within(tmp_path / name, 64).size == (64, 48), name


def test_a_damaged_inside_is_refused_when_it_is_decoded(tmp_path: Path) -> None:
    body = png(Image.effect_noise((640, 480), 90))
    path = tmp_path / "inside.png"
    at = len(body) // 2
    path.write_bytes(body[:at] + bytes(4096) + body[at + 4096 :])
    assert probe(path).pixels == (640, 480)  # its head is sound, and only that is read
    with pytest.raises(BadPicture) as refused:
        decode_within(path, 100)
    assert refused.value.why in ("damaged", "truncated")


def test_a_missing_file_a_folder_and_a_protected_one(tmp_path: Path) -> None:
    with pytest.raises(BadPicture) as refused:
        probe(tmp_path / "gone.jpg")
    assert refused.value.why == "missing"
    with pytest.raises(BadPicture) as refused:
        probe(tmp_path)
    assert refused.value.why == "unreadable"
    if hasattr(os, "geteuid") and os.geteuid() != 0:
        path = saved(ramp(3, 2), tmp_path / "mine.png")
        path.chmod(0)
        with pytest.raises(BadPicture) as refused:
            probe(path)
        assert refused.value.why == "unreadable"


def test_a_bomb_is_refused_before_room_is_made_for_it(tmp_path: Path) -> None:
    path = tmp_path / "bomb.png"
    path.write_bytes(one_bit_png(20000, 20000))
    assert path.stat().st_size < 100_000
    tracemalloc.start()
    try:
        with pytest.raises(BadPicture):
            probe(path)
        assert tracemalloc.get_traced_memory()[1] < 5_000_000  # its 400 million pixels would take 50 MB at least
    finally:
        tracemalloc.stop()


@pytest.mark.skipif(sys.platform != "linux", reason="reads its peak from the kernel")
def test_a_102_megapixel_jpeg_is_probed_and_shrunk_in_little_memory(tmp_path: Path) -> None:
    path = saved(Image.new("RGB", (11648, 8736), (90, 120, 60)), tmp_path / "large.jpg", quality=90)
    script = (
        "import re, sys; from pathlib import Path\n"
        "from composer.pictures.probing import probe; from composer.pictures.decoding import decode_within\n"
        "def peak(): return int(re.search(r'VmHWM:\\s*(\\d+)', Path('/proc/self/status').read_text())[1])\n"
        "before = peak()\n"
        "path = Path(sys.argv[1]); facts = probe(path); image = decode_within(path, 512)\n"
        "print(*facts.pixels, *image.size, (peak() - before) // 1024)"
    )
    done = subprocess.run(
        [sys.executable, "-c", script, str(path)], capture_output=True, text=True, check=True, timeout=120
    )
    *numbers, grown = (int(number) for number in done.stdout.split())
    assert numbers == [11648, 8736, 512, 384]
    assert grown < 50  # MB; decoded whole it would be 305


def test_digest_size_pixels_and_profile_are_noted(tmp_path: Path) -> None:
    path = saved(ramp(30, 20), tmp_path / "boats.png")
    noted = with_facts(Picture(key="i1", path="boats.png", source="archive", licence="free"), path)
    assert noted.sha256 == hashlib.sha256(path.read_bytes()).hexdigest()
    assert (noted.size_bytes, noted.pixels, noted.source) == (path.stat().st_size, (30, 20), "archive")
