"""One sheet as the lab gets it: exact pixels of the stock size, the picture in its place, marks in the waste."""

import io
from dataclasses import dataclass
from functools import lru_cache
from importlib.util import find_spec
from pathlib import Path

from PIL import Image, ImageDraw, ImageFont

from composer.model import PictureUse
from composer.pictures.colour import srgb_bytes
from composer.pictures.decoding import decode_crop
from composer.prints.cropping import CropBox
from composer.prints.file_names import FileKind
from composer.prints.marks import BAR_MM, BLEED_MM, LINE_MM, InkBox, SheetLayout
from composer.prints.plan import PrintPlan

MM_PER_INCH = 25.4
USUAL_PPI = 300
"""What labs print with (common practice); no more is gained beyond."""

MOST_SHEET_PIXELS = 40_000_000
"""A sheet with more pixels is written at 200, then at 150 ppi: it is looked at from further away."""

QUALITY = 96
_HALO_MM = 0.6
_LABEL_MM = 2.2


@dataclass(frozen=True, slots=True)
class SheetPixels:
    """A layout in whole pixels: the sheet, and the picture's left, top, right, bottom on it."""

    size: tuple[int, int]
    picture: tuple[int, int, int, int]
    ppi: int

    @classmethod
    def of(cls, layout: SheetLayout, ppi: int) -> "SheetPixels":
        """The layout at that density; every edge is rounded once, from millimetres."""
        return cls(
            (_px(layout.width_mm, ppi), _px(layout.height_mm, ppi)),
            (_px(layout.left, ppi), _px(layout.top, ppi), _px(layout.right, ppi), _px(layout.bottom, ppi)),
            ppi,
        )


def _px(mm: float, ppi: int) -> int:
    return round(mm / MM_PER_INCH * ppi)


def file_ppi(width_mm: float, height_mm: float) -> int:
    """The density of a sheet's file: 300, less where that makes more than 40 million pixels."""
    for ppi in (USUAL_PPI, 200):
        if _px(width_mm, ppi) * _px(height_mm, ppi) <= MOST_SHEET_PIXELS:
            return ppi
    return 150


def render(
    path: Path, crop: CropBox, layout: SheetLayout, *, bleed: bool = False, ppi: int | None = None, label: str = ""
) -> Image.Image:
    """The sheet's pixels.

    Args:
        path: the picture's file.
        crop: what of it is kept.
        layout: the sheet and the picture's place on it.
        bleed: let the picture reach 3 mm into the waste where it has the pixels, else leave that white.
        ppi: density; None = the usual one for this size.
        label: stands beside each bar, in the waste.

    Raises:
        BadPicture: with one sentence.
    """
    at = SheetPixels.of(layout, ppi or file_ppi(layout.width_mm, layout.height_mm))
    place = at.picture
    kept = (place[2] - place[0], place[3] - place[1])
    reach = (0, 0, 0, 0)
    if bleed:
        most = _px(BLEED_MM, at.ppi)
        reach = (
            min(most, place[0]),
            min(most, place[1]),
            min(most, at.size[0] - place[2]),
            min(most, at.size[1] - place[3]),
        )
    grown = (reach[0] / kept[0], reach[1] / kept[1], reach[2] / kept[0], reach[3] / kept[1])
    out = (kept[0] + reach[0] + reach[2], kept[1] + reach[1] + reach[3])
    picture = decode_crop(path, crop, out, grown)
    if out == at.size:
        sheet = picture
    else:
        sheet = Image.new("RGB", at.size, "white")
        sheet.paste(picture, (place[0] - reach[0], place[1] - reach[1]))
    draw_marks(sheet, layout, at)
    if label:
        draw_labels(sheet, layout, at.ppi, label)
    return sheet


def draw_marks(sheet: Image.Image, layout: SheetLayout, at: SheetPixels) -> None:
    """Marks and bars, black on a white edge, never on the part that is kept."""
    pen = ImageDraw.Draw(sheet)
    line_mm = max(LINE_MM, MM_PER_INCH / at.ppi)
    boxes = [_pixels(box, at.ppi) for box in layout.ink(line_mm)]
    halo = _px(_HALO_MM, at.ppi)
    left, top, right, bottom = at.picture
    for a, b, c, d in boxes:
        a, b, c, d = a - halo, b - halo, c + halo, d + halo
        if c > left and a < right and d > top and b < bottom:  # only the side away from the picture
            a, c = (max(a, right), c) if c > right >= a else (a, min(c, left)) if a < left <= c else (a, c)
            b, d = (max(b, bottom), d) if d > bottom >= b else (b, min(d, top)) if b < top <= d else (b, d)
        pen.rectangle((a, b, c - 1, d - 1), fill="white")
    for a, b, c, d in boxes:
        pen.rectangle((a, b, c - 1, d - 1), fill="black")


def draw_labels(sheet: Image.Image, layout: SheetLayout, ppi: int, label: str) -> None:
    """Small words between each bar and the picture's side of it, so that a cut-off bar still says whose it is."""
    size = _px(_LABEL_MM, ppi)
    font = _font(size)
    for way, start, line in layout.bars:
        wide = round(font.getlength(label)) + 2
        strip = Image.new("1", (wide, size + 2), 1)
        pen = ImageDraw.Draw(strip)
        pen.fontmode = "1"
        pen.text((1, size), label, font=font, fill=0, anchor="ls")
        middle = _px(start + BAR_MM / 2, ppi)
        if way == "across":
            sheet.paste(strip, (middle - wide // 2, _px(line, ppi) - strip.height - 2))
        else:
            turned = strip.transpose(Image.Transpose.ROTATE_90)
            sheet.paste(turned, (_px(line, ppi) - turned.width - 2, middle - wide // 2))


@lru_cache(maxsize=4)
def _font(size: int) -> ImageFont.FreeTypeFont:
    """The program's own typeface at that height, pixels.

    Raises:
        FileNotFoundError: when its package is damaged or missing.
    """
    found = find_spec("font_source_sans_pro")
    if found is None or found.origin is None:
        raise FileNotFoundError("font_source_sans_pro")
    file = Path(found.origin).parent / "files" / "SourceSansPro-Semibold.ttf"
    return ImageFont.truetype(str(file), size, layout_engine=ImageFont.Layout.BASIC)


def _pixels(box: InkBox, ppi: int) -> tuple[int, int, int, int]:
    """In whole pixels: edges rounded as the picture's are, nothing thinner than one pixel."""
    left, top = _px(box.left, ppi), _px(box.top, ppi)
    return left, top, max(left + 1, _px(box.right, ppi)), max(top + 1, _px(box.bottom, ppi))


def encode(sheet: Image.Image, ppi: int, kind: FileKind = "jpeg") -> bytes:
    """The file: 8-bit baseline JPEG without colour subsampling by default, sRGB embedded."""
    made = io.BytesIO()
    profile = srgb_bytes()
    if kind == "jpeg":
        sheet.save(made, "JPEG", quality=QUALITY, subsampling=0, progressive=False, dpi=(ppi, ppi), icc_profile=profile)
    elif kind == "tiff":
        sheet.save(made, "TIFF", compression="tiff_lzw", dpi=(ppi, ppi), icc_profile=profile)
    else:
        sheet.save(made, "PNG", dpi=(ppi, ppi), icc_profile=profile)
    return made.getvalue()


def print_file(path: Path, printed: PrintPlan, use: PictureUse, kind: FileKind = "jpeg", label: str = "") -> bytes:
    """The print file of one piece.

    Raises:
        BadPicture: with one sentence.
        ValueError: there is no stock to print on, or the picture has not been read.
    """
    layout = printed.layout
    if layout is None or printed.crop is None:
        raise ValueError(path.name)
    ppi = file_ppi(layout.width_mm, layout.height_mm)
    sheet = render(path, printed.crop, layout, bleed=use.print.edge == "bleed", ppi=ppi, label=label)
    return encode(sheet, ppi, kind)
