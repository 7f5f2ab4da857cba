"""Pictures decoded: small for the screen, or the crop of a print; never more of a JPEG than is needed."""

import math
from collections.abc import Callable
from pathlib import Path

from PIL import Image

from composer.pictures.colour import on_white_in_srgb, resizable
from composer.pictures.opening import opened, orientation_of, refusals, upright
from composer.prints.cropping import CropBox

Cancelled = Callable[[], bool]


class Stopped(Exception):
    """The person no longer wants the picture."""


def never() -> bool:
    """Nobody cancels."""
    return False


def decode_within(path: Path, side: int, cancelled: Cancelled = never) -> Image.Image:
    """The whole picture, upright, in sRGB, with its longer side at most ``side`` pixels.

    A JPEG is decoded at 1/2, 1/4 or 1/8 straight away: its true shape is asked for, else the
    decoder would stop one step too early.

    Raises:
        BadPicture: with one sentence.
        Stopped: when ``cancelled`` says so.
    """
    with opened(path) as found:
        image = found.image
        orientation = orientation_of(found)
        scale = min(1.0, side / max(image.size))
        target = (max(1, round(image.width * scale)), max(1, round(image.height * scale)))
        profile = image.info.get("icc_profile")
        _expect_wanted(cancelled)
        with refusals(path.name):
            image.draft(None, target)
            image.load()
            _expect_wanted(cancelled)
            small = resizable(image, path.name)
            if small.size != target:
                small = small.resize(target, Image.Resampling.LANCZOS, reducing_gap=2.0)
            return upright(on_white_in_srgb(small, profile), orientation)


def decode_crop(
    path: Path, crop: CropBox, out: tuple[int, int], grown: tuple[float, float, float, float] = (0.0, 0.0, 0.0, 0.0)
) -> Image.Image:
    """The crop of a picture at exactly ``out`` pixels, in sRGB.

    Args:
        path: the file.
        crop: in pixels of the upright picture after its quarter turn.
        out: width and height to come out, ``grown`` included.
        grown: how much more than the crop is wanted left, top, right, bottom, as shares of its width
            and height; where the picture ends before, it comes out white.

    Raises:
        BadPicture: with one sentence.
    """
    left, top, right, bottom = grown
    wide, high = crop.width * (1 + left + right), crop.height * (1 + top + bottom)
    with opened(path) as found:
        image = found.image
        orientation = orientation_of(found)
        stored = image.size
        profile = image.info.get("icc_profile")
        shrink = min(1.0, max(out[0] / wide, out[1] / high))
        with refusals(path.name):
            image.draft(None, (math.ceil(stored[0] * shrink), math.ceil(stored[1] * shrink)))
            image.load()
            whole = _turned(upright(resizable(image, path.name), orientation), crop.turn)
            scale = (whole.width / crop.pixels[0], whole.height / crop.pixels[1])
            # Before the tilt: the crop's box, still about its own centre.
            box = (
                (crop.centre[0] - crop.width * (0.5 + left)) * scale[0],
                (crop.centre[1] - crop.height * (0.5 + top)) * scale[1],
                (crop.centre[0] + crop.width * (0.5 + right)) * scale[0],
                (crop.centre[1] + crop.height * (0.5 + bottom)) * scale[1],
            )
            centre = (crop.centre[0] * scale[0], crop.centre[1] * scale[1])
            return _cut(whole, box, centre, crop.tilt_deg, out, profile)


def _cut(
    whole: Image.Image,
    box: tuple[float, float, float, float],
    centre: tuple[float, float],
    tilt_deg: float,
    out: tuple[int, int],
    profile: bytes | None,
) -> Image.Image:
    if tilt_deg:
        whole, box = _untilted(whole, box, centre, tilt_deg)
    inside = (max(0.0, box[0]), max(0.0, box[1]), min(float(whole.width), box[2]), min(float(whole.height), box[3]))
    kx, ky = out[0] / (box[2] - box[0]), out[1] / (box[3] - box[1])
    place = (
        round((inside[0] - box[0]) * kx),
        round((inside[1] - box[1]) * ky),
        round((inside[2] - box[0]) * kx),
        round((inside[3] - box[1]) * ky),
    )
    size = (max(1, place[2] - place[0]), max(1, place[3] - place[1]))
    part = on_white_in_srgb(whole.resize(size, Image.Resampling.LANCZOS, box=inside, reducing_gap=3.0), profile)
    if size == out:
        return part
    sheet = Image.new("RGB", out, "white")
    sheet.paste(part, place[:2])
    return sheet


def _untilted(
    whole: Image.Image, box: tuple[float, float, float, float], centre: tuple[float, float], tilt_deg: float
) -> tuple[Image.Image, tuple[float, float, float, float]]:
    """Only what lies around the tilted box is turned, clockwise by the tilt, about the crop's centre."""
    reach = math.hypot(box[2] - box[0], box[3] - box[1]) + 4
    left, top = max(0, math.floor(centre[0] - reach)), max(0, math.floor(centre[1] - reach))
    right, bottom = min(whole.width, math.ceil(centre[0] + reach)), min(whole.height, math.ceil(centre[1] + reach))
    part = whole.crop((left, top, right, bottom))
    about = (centre[0] - left, centre[1] - top)
    white = _WHITE.get(part.mode, (255, 255, 255))
    turned = part.rotate(-tilt_deg, Image.Resampling.BICUBIC, center=about, fillcolor=white)
    return turned, (box[0] - left, box[1] - top, box[2] - left, box[3] - top)


_WHITE: dict[str, float | tuple[float, ...]] = {
    "L": 255,
    "LA": (255, 0),
    "RGBA": (255, 255, 255, 0),
    "CMYK": (0, 0, 0, 0),
}


def _turned(image: Image.Image, turn: int) -> Image.Image:
    method = {90: Image.Transpose.ROTATE_270, 180: Image.Transpose.ROTATE_180, 270: Image.Transpose.ROTATE_90}.get(turn)
    return image if method is None else image.transpose(method)


def _expect_wanted(cancelled: Cancelled) -> None:
    if cancelled():
        raise Stopped


def true_size_patch(
    path: Path,
    crop: CropBox,
    printed_mm: tuple[float, float],
    centre: tuple[float, float],
    patch_mm: tuple[float, float],
    screen_ppi: float,
) -> Image.Image:
    """A part of a print as large on the screen as it will be on paper, with no more sharpness than it will have.

    Args:
        path: the picture's file.
        crop: what the print shows.
        printed_mm: how large that is printed.
        centre: of the part, as shares of the print's width and height, from its upper left corner.
        patch_mm: size of the part; no larger than the print.
        screen_ppi: pixels per inch of the screen.

    Raises:
        BadPicture: with one sentence.
    """
    share = tuple(min(1.0, part / whole) for part, whole in zip(patch_mm, printed_mm, strict=True))
    at = tuple(min(max(c, s / 2), 1 - s / 2) for c, s in zip(centre, share, strict=True))
    cos, sin = math.cos(math.radians(crop.tilt_deg)), math.sin(math.radians(crop.tilt_deg))
    across, down = (at[0] - 0.5) * crop.width, (at[1] - 0.5) * crop.height
    middle = (crop.centre[0] + across * cos + down * sin, crop.centre[1] - across * sin + down * cos)
    part = CropBox(crop.pixels, middle, crop.width * share[0], crop.height * share[1], crop.turn, crop.tilt_deg)
    size = tuple(max(1, round(side * s / 25.4 * screen_ppi)) for side, s in zip(printed_mm, share, strict=True))
    return decode_crop(path, part, (size[0], size[1]))
