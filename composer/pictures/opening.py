"""The one door to Pillow's decoders: formats named, size bounded, every error one sentence."""

import logging
import struct
import warnings
import zlib
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import BinaryIO, NamedTuple

from PIL import ExifTags, Image, UnidentifiedImageError

from composer.pictures.refused import BadPicture
from composer.pictures.wholeness import HEAD_BYTES, Format, format_of, is_whole, other_format, png_exif, webp_pixels
from composer.texts import say

MOST_PIXELS = 250_000_000
"""A picture with more is refused: 750 MB decoded (judgement; the largest cameras have 150 MP)."""

MOST_BYTES = 2_000_000_000

READABLE = "JPEG, PNG, TIFF, WebP"
SUFFIXES: dict[Format, tuple[str, ...]] = {
    "JPEG": (".jpg", ".jpeg", ".jpe", ".jfif"),
    "PNG": (".png",),
    "TIFF": (".tif", ".tiff"),
    "WEBP": (".webp",),
}

# Pillow's own bound warns at 89 million pixels, which good cameras exceed; ours is checked before any decoding.
Image.MAX_IMAGE_PIXELS = None

# What Pillow grumbles about on stderr is either harmless or raised as well.
warnings.filterwarnings("ignore", category=UserWarning, module=r"PIL\.")
logging.getLogger("PIL").addHandler(logging.NullHandler())

_STRIP_OFFSETS, _STRIP_BYTES, _TILE_OFFSETS, _TILE_BYTES = 273, 279, 324, 325


class Opened(NamedTuple):
    """A picture's file, its head read: nothing is decoded yet."""

    image: Image.Image
    kind: Format
    file: BinaryIO


@contextmanager
def opened(path: Path, *, whole: bool = True) -> Iterator[Opened]:
    """Opens a picture and reads its head.

    Args:
        path: the file.
        whole: refuse it also when its end is missing.

    Raises:
        BadPicture: with one sentence.
    """
    name = path.name
    with _reading(path) as file:
        head = file.read(HEAD_BYTES)
        kind = _kind(name, head)
        length = file.seek(0, 2)
        if length > MOST_BYTES:
            raise BadPicture("too-large", say("“{file}” is too large a file to be a picture.", file=name))
        if kind == "WEBP" and (size := webp_pixels(head)) is not None:
            _expect_room(name, size)
        if whole and not is_whole(file, kind):
            raise _cut_off(name)
        with refusals(name):
            file.seek(0)
            image = Image.open(file, formats=(kind,))
        with image:
            _expect_room(name, image.size)
            if kind == "TIFF" and whole and not _strips_there(image, length):
                raise _cut_off(name)
            yield Opened(image, kind, file)


@contextmanager
def _reading(path: Path) -> Iterator[BinaryIO]:
    try:
        if path.exists() and not path.is_file():
            raise BadPicture("unreadable", say("“{file}” is not a file.", file=path.name))
        file = path.open("rb")
    except FileNotFoundError:
        raise BadPicture("missing", say("There is no picture “{file}”.", file=path)) from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise BadPicture(
            "unreadable", say("“{file}” cannot be read: {reason}.", file=path.name, reason=reason)
        ) from error
    with file:
        yield file


def _kind(name: str, head: bytes) -> Format:
    if not head:
        raise BadPicture("empty", say("“{file}” is empty.", file=name))
    kind = format_of(head)
    if kind is not None:
        return kind
    other = other_format(head)
    if other is not None:
        raise BadPicture(
            "other-format",
            say("“{file}” is {found}; pictures are {formats}.", file=name, found=other, formats=READABLE),
        )
    raise BadPicture(
        "not-a-picture", say("“{file}” is not a picture; pictures are {formats}.", file=name, formats=READABLE)
    )


def _cut_off(name: str) -> BadPicture:
    return BadPicture(
        "truncated", say("“{file}” is cut off: it ends before its picture does. Copy it again.", file=name)
    )


def _expect_room(name: str, pixels: tuple[int, int]) -> None:
    if min(pixels) < 1:
        raise BadPicture("damaged", say("“{file}” is damaged: it has no pixels.", file=name))
    if pixels[0] * pixels[1] > MOST_PIXELS:
        raise BadPicture(
            "too-large",
            say(
                "“{file}” says it has {width} × {height} pixels; up to {most} million are read.",
                file=name,
                width=pixels[0],
                height=pixels[1],
                most=MOST_PIXELS // 1_000_000,
            ),
        )


def _strips_there(image: Image.Image, length: int) -> bool:
    tags = getattr(image, "tag_v2", {})
    for offsets, sizes in ((_STRIP_OFFSETS, _STRIP_BYTES), (_TILE_OFFSETS, _TILE_BYTES)):
        if offsets in tags and sizes in tags:
            starts, lengths = tags[offsets], tags[sizes]
            return all(int(at) + int(size) <= length for at, size in zip(starts, lengths, strict=False))
    return True


@contextmanager
def refusals(name: str) -> Iterator[None]:
    """Turns whatever a decoder throws at a damaged file into one sentence.

    Pillow documents OSError; malformed files bring the rest of this list to light.
    """
    try:
        yield
    except BadPicture:
        raise
    except MemoryError:
        raise BadPicture("too-large", say("There is not enough memory to read “{file}”.", file=name)) from None
    except UnidentifiedImageError as error:
        raise BadPicture("damaged", say("“{file}” is damaged: its head cannot be read.", file=name)) from error
    except OSError as error:
        if "truncated" in str(error) or "broken data stream" in str(error):
            raise _cut_off(name) from error
        raise _damaged(name, error) from error
    except (
        ValueError, TypeError, SyntaxError, KeyError, IndexError, AttributeError, ArithmeticError, EOFError,
        NotImplementedError, RuntimeError, struct.error, zlib.error, Image.DecompressionBombError,
    ) as error:  # fmt: skip
        raise _damaged(name, error) from error


def _damaged(name: str, error: Exception) -> BadPicture:
    reason = "".join(sign if sign.isprintable() else " " for sign in str(error))[:80]
    return BadPicture("damaged", say("“{file}” is damaged ({reason}).", file=name, reason=reason))


def orientation_of(found: Opened) -> int:
    """How the camera was held, 1…8 (EXIF tag 274); 1 where that is unsaid or nonsense."""
    try:
        if found.kind == "PNG":
            # Pillow would decode the whole picture to look behind it.
            exif = Image.Exif()
            exif.load(png_exif(found.file))
        else:
            exif = found.image.getexif()
        value = exif.get(ExifTags.Base.Orientation, 1)
    except Exception:  # a damaged EXIF block says nothing about the picture
        return 1
    return value if isinstance(value, int) and 1 <= value <= 8 else 1


def upright_pixels(pixels: tuple[int, int], orientation: int) -> tuple[int, int]:
    """Width and height as the camera meant them: orientations 5 to 8 swap them (JEITA CP-3451)."""
    return pixels[::-1] if orientation >= 5 else pixels


_TURN_BACK = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}


def upright(image: Image.Image, orientation: int) -> Image.Image:
    """The picture as the camera meant it."""
    method = _TURN_BACK.get(orientation)
    return image if method is None else image.transpose(method)
