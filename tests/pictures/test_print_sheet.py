"""Print files read back: pixels, profile, coding, the picture's place, bar and marks, to one pixel."""

import io
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray
from PIL import Image, ImageCms

from composer.model import Crop, Frame, Piece
from composer.pictures.colour import srgb_bytes
from composer.pictures.decoding import true_size_patch
from composer.pictures.print_sheet import encode, file_ppi, render
from composer.prints.choosing import fit_of, picture_on_sheet
from composer.prints.cropping import crop_box
from composer.prints.file_names import file_name, plain
from composer.prints.marks import SheetLayout
from composer.prints.sharpness import ppi_of
from composer.prints.stock import StockSize
from composer.units import Length
from tests.pictures.files import CHINA, HUBBLE, RETINA, ramp, real, saved

INCH = 25.4
EIGHT_BY_TEN = StockSize("8x10in", 8 * INCH, 10 * INCH)

Pixels = NDArray[np.uint8]


def sheet(
    path: Path,
    needed: tuple[float, float],
    stock: StockSize = EIGHT_BY_TEN,
    cut: str = "left",
    bleed: bool = False,
    crop: Crop | None = None,
) -> Pixels:
    fit = fit_of(stock, needed)
    layout = SheetLayout.of((fit.width_mm, fit.height_mm), needed, picture_on_sheet(fit, cut))  # type: ignore[arg-type]
    with Image.open(path) as image:
        pixels = image.size
    box = crop_box(pixels, crop or Crop(), needed)
    return np.asarray(render(path, box, layout, bleed=bleed))


def runs(black: NDArray[np.bool_]) -> list[tuple[int, int]]:
    """Stretches of True: from, to (exclusive)."""
    edges = np.flatnonzero(np.diff(np.concatenate(([0], black.astype(np.int8), [0]))))
    return list(zip(edges[::2].tolist(), edges[1::2].tolist(), strict=True))


def dark(pixels: Pixels) -> NDArray[np.bool_]:
    return np.asarray(pixels.max(axis=2) < 60)


def test_a_print_8_by_9_on_8_by_10(tmp_path: Path) -> None:
    path = saved(ramp(1600, 1800), tmp_path / "ramp.png")
    pixels = sheet(path, (8 * INCH, 9 * INCH))
    # 8 × 300 by 10 × 300; the picture ends at 9 × 300 = 2 700.
    assert pixels.shape == (3000, 2400, 3)
    kept = pixels[:2700]
    assert (int(kept[0, 0, 0]), int(kept[0, -1, 0])) == pytest.approx((0, 255), abs=2)
    assert (int(kept[0, 0, 1]), int(kept[-1, 0, 1])) == pytest.approx((0, 255), abs=2)
    middle = kept[1350, 1200]
    assert middle[:2].tolist() == pytest.approx([127, 127], abs=2)
    waste = pixels[2700:]
    ink = dark(waste)
    assert np.all(waste[~ink] == 255)
    # Marks on the cut line: their upper edge is the picture's lower one; 6 mm = 71 px inside, 8 mm = 94 px long.
    first = runs(ink[0])
    assert first[0] == pytest.approx((71, 71 + 94), abs=1)
    assert first[-1] == pytest.approx((2400 - 71 - 94, 2400 - 71), abs=1)
    assert len(first) == 2
    # The bar: 50 mm = 590.55 px, its line 9 mm = 106 px from the lower edge, nothing closer than 6 mm = 71 px.
    line = ink[300 - 106]
    (bar,) = runs(line)
    assert bar[1] - bar[0] == pytest.approx(590.55, abs=1)
    assert (bar[0] + bar[1]) / 2 == pytest.approx(1200, abs=1)
    rows = np.flatnonzero(ink.any(axis=1))
    assert rows.max() == pytest.approx(300 - 71, abs=1)
    columns = np.flatnonzero(ink.any(axis=0))
    assert columns.min() >= 70
    assert columns.max() < 2400 - 70


def test_waste_right_and_below_carries_a_bar_each_way(tmp_path: Path) -> None:
    path = saved(ramp(800, 1000), tmp_path / "ramp.png")
    pixels = sheet(path, (173.0, 223.0))
    wide, high = round(173 / INCH * 300), round(223 / INCH * 300)
    ink = dark(pixels)
    right = ink[:, wide:]
    line = right[:, 2400 - wide - 106]
    (bar,) = [run for run in runs(line) if run[1] - run[0] > 200]
    assert bar[1] - bar[0] == pytest.approx(590.55, abs=1)
    below = ink[3000 - 106]
    (bar,) = [run for run in runs(below) if run[1] - run[0] > 200]
    assert bar[1] - bar[0] == pytest.approx(590.55, abs=1)
    # Marks touch the cut lines from outside, the kept part has none of their black.
    assert [run[1] - run[0] for run in runs(right[:, 0])] == pytest.approx([94, 94], abs=1)
    assert [run[1] - run[0] for run in runs(ink[high, :])] == pytest.approx([94, 94], abs=1)
    assert int(pixels[:high, wide - 1, 2].min()) > 100
    assert int(pixels[high - 1, :wide, 2].min()) > 100


@pytest.mark.parametrize(("cut", "left", "top"), [("right", 30.2, 0.0), ("bottom", 0.0, 31.0), ("centred", 15.1, 15.5)])
def test_the_picture_lies_where_it_is_asked_to(tmp_path: Path, cut: str, left: float, top: float) -> None:
    path = saved(Image.new("RGB", (800, 1000), (200, 30, 30)), tmp_path / "red.png")
    pixels = sheet(path, (173.0, 223.0), cut=cut)
    red = (pixels[..., 0] > 150) & (pixels[..., 1] < 100)
    rows, columns = np.flatnonzero(red.any(axis=1)), np.flatnonzero(red.any(axis=0))
    k = 300 / INCH
    assert (columns[0], rows[0]) == pytest.approx((left * k, top * k), abs=1)
    assert (columns[-1] + 1, rows[-1] + 1) == pytest.approx(((left + 173) * k, (top + 223) * k), abs=1)


def test_a_narrow_strip_of_waste_carries_nothing(tmp_path: Path) -> None:
    path = saved(Image.new("RGB", (800, 1000), (200, 30, 30)), tmp_path / "red.png")
    pixels = sheet(path, (123.0, 174.0), StockSize("5x7in", 127.0, 177.8))
    assert not dark(pixels).any()
    assert np.all(pixels[:, round(123 / INCH * 300) :] == 255)


def test_bleed_reaches_3_mm_over_the_cut_where_the_picture_goes_on(tmp_path: Path) -> None:
    path = saved(ramp(2000, 2000), tmp_path / "ramp.png")
    needed = (173.0, 223.0)
    plain_edge = sheet(path, needed, crop=Crop(zoom=2))
    bleeding = sheet(path, needed, bleed=True, crop=Crop(zoom=2))
    wide, high, reach = round(173 / INCH * 300), round(223 / INCH * 300), round(3 / INCH * 300)
    assert np.abs(plain_edge[:high, :wide].astype(int) - bleeding[:high, :wide]).max() <= 1
    # Away from the marks the ramp goes on over the cut line, and then it is white.
    row = bleeding[high // 2]
    assert int(row[wide + reach - 1, 0]) >= int(row[wide - 1, 0])
    assert int(row[wide + reach - 1, 2]) == pytest.approx(128, abs=2)
    assert row[wide + reach + 1].tolist() == [255, 255, 255]
    assert plain_edge[high // 2, wide + 5].tolist() == [255, 255, 255]


def test_turn_and_tilt(tmp_path: Path) -> None:
    image = Image.new("RGB", (400, 300), "white")
    image.paste((200, 0, 0), (0, 0, 200, 150))  # red in the upper left
    path = saved(image, tmp_path / "corner.png")
    pixels = sheet(path, (150.0, 200.0), StockSize("s", 150.0, 200.0), crop=Crop(turn=90))
    assert pixels[20, -20].tolist() == pytest.approx([200, 0, 0], abs=3)  # clockwise: now upper right
    assert pixels[-20, -20].tolist() == [255, 255, 255]
    # A tilt turns the picture clockwise: a level line falls to the right by tan 5° = 0.0875 per pixel.
    lines = Image.new("RGB", (1200, 900), "white")
    lines.paste((0, 0, 0), (0, 440, 1200, 460))
    path = saved(lines, tmp_path / "horizon.png")
    tilted = sheet(path, (200.0, 150.0), StockSize("t", 200.0, 150.0), crop=Crop(tilt_deg=5))
    ink = dark(tilted)
    high, wide = ink.shape
    at = [np.flatnonzero(ink[:, x]).mean() for x in (wide // 4, 3 * wide // 4)]
    assert (at[1] - at[0]) / (wide / 2) == pytest.approx(0.0875, abs=0.003)
    assert (at[0] + at[1]) / 2 == pytest.approx(high / 2, abs=2)


def test_the_file_is_baseline_jpeg_without_subsampling_in_srgb(tmp_path: Path) -> None:
    path = saved(ramp(400, 500), tmp_path / "ramp.png")
    made = encode(Image.fromarray(sheet(path, (8 * INCH, 9 * INCH))), 300)
    with Image.open(io.BytesIO(made)) as image:
        assert (image.format, image.mode, image.size) == ("JPEG", "RGB", (2400, 3000))
        assert image.info["dpi"] == (300, 300)
        assert "progressive" not in image.info
        profile = ImageCms.ImageCmsProfile(io.BytesIO(image.info["icc_profile"]))
        assert "sRGB" in ImageCms.getProfileDescription(profile)
        # Quality 95 of the independent JPEG group's tables: each entry ≤ round(base / 10); the first base is 16.
        assert image.quantization[0][0] <= 2  # type: ignore[attr-defined]
        image.load()
        assert (
            np.abs(
                np.asarray(image).astype(int)[:2690, 10:-10] - sheet(path, (8 * INCH, 9 * INCH))[:2690, 10:-10]
            ).mean()
            < 1.5
        )
    assert made[:3] == b"\xff\xd8\xff"
    # SOF0 (baseline, ITU-T T.81 table B.1) with 8 bits; no SOF2 before the scan.
    head = made[: made.index(b"\xff\xda")]
    at = head.index(b"\xff\xc0")
    assert head[at + 4] == 8
    # Three components, each sampled 1 × 1 (B.2.2: number, sampling factors, table).
    assert (head[at + 9], head[at + 11], head[at + 14], head[at + 17]) == (3, 0x11, 0x11, 0x11)
    assert made == encode(Image.fromarray(sheet(path, (8 * INCH, 9 * INCH))), 300)


@pytest.mark.parametrize(("kind", "name"), [("tiff", "TIFF"), ("png", "PNG")])
def test_lossless_files_hold_the_very_pixels(tmp_path: Path, kind: str, name: str) -> None:
    path = saved(ramp(400, 500), tmp_path / "ramp.png")
    pixels = sheet(path, (180.0, 240.0))
    with Image.open(io.BytesIO(encode(Image.fromarray(pixels), 300, kind))) as image:  # type: ignore[arg-type]
        assert image.format == name
        assert np.array_equal(np.asarray(image), pixels)
        assert image.info["icc_profile"] == srgb_bytes()
        assert tuple(float(part) for part in image.info["dpi"]) == pytest.approx((300, 300), abs=0.01)


def test_another_profile_is_converted(tmp_path: Path) -> None:
    # A profile whose red and green are swapped: a made-up space in which pure "red" means sRGB green.
    swapped = bytearray(srgb_bytes())
    tags = {
        bytes(swapped[at : at + 4]): at for at in range(132, 132 + 12 * int.from_bytes(swapped[128:132], "big"), 12)
    }
    red, green = tags[b"rXYZ"], tags[b"gXYZ"]
    swapped[red : red + 4], swapped[green : green + 4] = swapped[green : green + 4], swapped[red : red + 4]
    data = bytes(swapped).replace("sRGB built-in".encode("utf-16-be"), "swapped spac".encode("utf-16-be") + b"\0 ")
    path = saved(Image.new("RGB", (80, 100), (255, 0, 0)), tmp_path / "swapped.png", icc_profile=data)
    pixels = sheet(path, (8 * INCH, 10 * INCH))
    assert pixels[1500, 1200].tolist() == pytest.approx([0, 255, 0], abs=3)


def test_cmyk_16_bits_palettes_and_transparency_come_out_right(tmp_path: Path) -> None:
    grey16 = np.full((100, 80), 51 * 257, dtype=np.uint16)
    made = {
        "grey16.png": saved(Image.fromarray(grey16), tmp_path / "grey16.png"),
        "cmyk.tif": saved(Image.new("CMYK", (80, 100), (0, 255, 255, 0)), tmp_path / "cmyk.tif"),
        "clear.png": saved(Image.new("RGBA", (80, 100), (0, 0, 0, 0)), tmp_path / "clear.png"),
        "palette.png": saved(Image.new("RGB", (80, 100), (10, 200, 30)).quantize(4), tmp_path / "palette.png"),
        "one-bit.png": saved(Image.new("1", (80, 100), 0), tmp_path / "one-bit.png"),
        "half.webp": saved(Image.new("RGBA", (80, 100), (0, 0, 0, 128)), tmp_path / "half.webp", lossless=True),
    }
    expected = {
        "grey16.png": (51, 51, 51),
        "cmyk.tif": (255, 0, 0),
        "clear.png": (255, 255, 255),
        "palette.png": (10, 200, 30),
        "one-bit.png": (0, 0, 0),
        "half.webp": (127, 127, 127),
    }
    for name, path in made.items():
        assert sheet(path, (8 * INCH, 10 * INCH))[1500, 1200].tolist() == pytest.approx(expected[name], abs=2), name


# Ready answers by hand: retina 1 411 ÷ 5 in; hubble fills 6 × 4 in by its width, 1 000 ÷ 6; china 640 ÷ 6.
@pytest.mark.parametrize(
    ("which", "size_in", "ppi", "crop", "lost"),
    [
        (RETINA, (5, 5), 282.2, (1411, 1411), 0),
        (RETINA, (9.4, 9.4), 150.1, (1411, 1411), 0),
        (HUBBLE, (6, 4), 166.67, (1000, 666.67), 0.2355),
        (CHINA, (6, 4), 106.67, (640, 426.67), 0.0008),
    ],
)
def test_real_pictures(
    which: tuple[str, str], size_in: tuple[float, float], ppi: float, crop: tuple[float, float], lost: float
) -> None:
    size = (size_in[0] * INCH, size_in[1] * INCH)
    with Image.open(real(which)) as image:
        box = crop_box(image.size, Crop(), size)
    assert ppi_of((box.width, box.height), size) == pytest.approx(ppi, abs=0.01)
    assert (box.width, box.height) == pytest.approx(crop, abs=0.01)
    assert box.lost == pytest.approx(lost, abs=1e-4)
    pixels = sheet(real(which), size, StockSize("s", min(size), max(size)))
    # Shrunk to one pixel, the print has the same mean colour as the crop of the original.
    with Image.open(real(which)) as image:
        left, top = box.centre[0] - box.width / 2, box.centre[1] - box.height / 2
        original = np.asarray(
            image.convert("RGB").crop((round(left), round(top), round(left + box.width), round(top + box.height)))
        )
    assert pixels.mean(axis=(0, 1)) == pytest.approx(original.mean(axis=(0, 1)), abs=1.0)


def test_densities_of_files() -> None:
    assert file_ppi(8 * INCH, 10 * INCH) == 300
    assert file_ppi(18 * INCH, 24 * INCH) == 300  # 38.9 million pixels
    assert file_ppi(24 * INCH, 36 * INCH) == 200  # 77.8 million at 300
    assert file_ppi(1000, 1600) == 150


@pytest.mark.parametrize(
    ("number", "name", "expected"),
    [
        (3, "Boats", "03_8x10in_boats.jpg"),
        (12, "Łódź: Straße & Øre", "12_8x10in_lodz-strasse-ore.jpg"),
        (104, "鐘", "104_8x10in_picture.jpg"),
        (1, "../../etc/passwd", "01_8x10in_etc-passwd.jpg"),
        (1, "CON.", "01_8x10in_con.jpg"),
    ],
)
def test_names_are_plain_ascii(number: int, name: str, expected: str) -> None:
    side = Length.from_text("30 cm")
    piece = Piece(key="p1", number=number, name=name, frame=Frame(width=side, height=side))
    assert file_name(piece, EIGHT_BY_TEN) == expected
    assert len(plain("x" * 300)) == 40


@pytest.mark.skipif(sys.platform != "linux", reason="reads its peak from the kernel")
def test_a_102_megapixel_picture_becomes_a_print_in_bounded_memory(tmp_path: Path) -> None:
    path = saved(Image.new("RGB", (11648, 8736), (90, 120, 60)), tmp_path / "large.jpg", quality=90)
    script = (
        "import re, sys; from pathlib import Path\n"
        "from tests.pictures.test_print_sheet import *\n"
        "def peak(): return int(re.search(r'VmHWM:\\s*(\\d+)', Path('/proc/self/status').read_text())[1])\n"
        "before = peak(); layout = SheetLayout(254, 203.2, 0, 0, 240, 180)\n"
        "box = crop_box((11648, 8736), Crop(), (240, 180))\n"
        "data = encode(render(Path(sys.argv[1]), box, layout), 300)\n"
        "print((peak() - before) // 1024)"
    )
    root = Path(__file__).parents[2]
    done = subprocess.run(
        [sys.executable, "-c", script, str(path)], capture_output=True, text=True, check=True, timeout=120, cwd=root
    )
    # Decoded at a half 76 MB, the sheet 22 MB, its JPEG; whole it would be 305 MB for the picture alone.
    assert int(done.stdout) < 200


def test_a_label_says_whose_bar_it_is_and_touches_neither_bar_nor_picture(tmp_path: Path) -> None:
    path = saved(Image.new("RGB", (800, 1000), (200, 30, 30)), tmp_path / "red.png")
    needed = (173.0, 223.0)
    fit = fit_of(EIGHT_BY_TEN, needed)
    layout = SheetLayout.of((fit.width_mm, fit.height_mm), needed, picture_on_sheet(fit, "left"))
    box = crop_box((800, 1000), Crop(), needed)
    bare, told = (np.asarray(render(path, box, layout, label=label)) for label in ("", "5 · 50 mm"))
    added = np.argwhere((bare != told).any(axis=2))
    assert np.all(told[tuple(added.T)] == 0)
    wide, high = round(173 / INCH * 300), round(223 / INCH * 300)
    inside = round(6 / INCH * 300) - 1
    below = added[added[:, 0] >= high]
    right = added[added[:, 0] < high]
    # Below: over the bar's line, which lies 9 mm from the edge; right of the picture: beside it. Neither in the picture.
    assert len(below) > 50 and len(right) > 50
    assert below[:, 0].max() < 3000 - round(9 / INCH * 300) and below[:, 0].min() > high + 20
    assert right[:, 1].min() > wide + 20 and right[:, 1].max() < 2400 - inside
    assert added.min() >= 0


def test_a_patch_is_as_large_on_the_screen_as_on_paper(tmp_path: Path) -> None:
    path = saved(ramp(2000, 1000), tmp_path / "ramp.png")
    box = crop_box((2000, 1000), Crop(), (200.0, 100.0))
    # 50.8 × 25.4 mm of a print 200 mm wide on a screen of 96 ppi: 192 × 96 pixels.
    patch = np.asarray(true_size_patch(path, box, (200.0, 100.0), (0.75, 0.5), (50.8, 25.4), 96))
    assert patch.shape == (96, 192, 3)
    # Its left edge shows what lies at 75 % − 12.7 % of the print's width, its right one at 87.7 %.
    assert patch[48, 0, 0] == pytest.approx(0.623 * 255, abs=2)
    assert patch[48, -1, 0] == pytest.approx(0.877 * 255, abs=2)
    corner = np.asarray(true_size_patch(path, box, (200.0, 100.0), (0.0, 0.0), (50.8, 25.4), 96))
    assert corner[0, 0, :2].max() <= 2
    tilted = crop_box((2000, 1000), Crop(tilt_deg=6), (200.0, 100.0))
    whole = np.asarray(true_size_patch(path, tilted, (200.0, 100.0), (0.5, 0.5), (200.0, 100.0), 96)).astype(int)
    part = np.asarray(true_size_patch(path, tilted, (200.0, 100.0), (0.25, 0.75), (50.0, 25.0), 96)).astype(int)
    top, left = round(0.75 * 378 - 94 / 2), round(0.25 * 756 - 189 / 2)
    assert np.abs(whole[top : top + part.shape[0], left : left + part.shape[1]] - part).max() <= 4


def test_a_cmyk_jpeg_is_not_turned_inside_out(tmp_path: Path) -> None:
    path = saved(Image.new("CMYK", (80, 100), (0, 255, 255, 0)), tmp_path / "ink.jpg", quality=95)
    assert sheet(path, (8 * INCH, 10 * INCH))[1500, 1200].tolist() == pytest.approx([255, 0, 0], abs=4)
