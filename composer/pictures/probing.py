"""What a picture's file is, read from its head: pixels, profile, oddities; nothing is decoded."""

import hashlib
from dataclasses import dataclass
from pathlib import Path
from typing import Literal

from composer.model import Picture
from composer.pictures.colour import profile_name
from composer.pictures.opening import SUFFIXES, Opened, opened, orientation_of, refusals, upright_pixels
from composer.pictures.refused import BadPicture
from composer.pictures.wholeness import Format
from composer.texts import say

Remark = Literal["mislabelled", "cmyk", "deep", "frames", "transparent"]

_BLOCK = 1 << 20
_BITS_PER_SAMPLE = 258


@dataclass(frozen=True, slots=True)
class PictureFacts:
    """What the head of a file says.

    Attributes:
        kind: by its bytes, not by its name.
        pixels: width and height as the camera meant them.
        stored_pixels: as they lie in the file.
        orientation: EXIF 1…8.
        mode: Pillow's name of the pixels' kind.
        profile: name of the embedded colour profile.
        remarks: what is odd and handled.
    """

    kind: Format
    pixels: tuple[int, int]
    stored_pixels: tuple[int, int]
    orientation: int
    mode: str
    profile: str | None
    remarks: tuple[Remark, ...]


def probe(path: Path) -> PictureFacts:
    """Looks into a picture's file.

    Raises:
        BadPicture: missing, another format, cut off, damaged, beyond 250 million pixels.
    """
    with opened(path) as found, refusals(path.name):  # looking for further frames reads on in the file
        image = found.image
        orientation = orientation_of(found)
        return PictureFacts(
            kind=found.kind,
            pixels=upright_pixels(image.size, orientation),
            stored_pixels=image.size,
            orientation=orientation,
            mode=image.mode,
            profile=profile_name(image),
            remarks=tuple(_remarks(path, found)),
        )


def _remarks(path: Path, found: Opened) -> list[Remark]:
    image = found.image
    remarks: list[Remark] = []
    if path.suffix.casefold() not in SUFFIXES[found.kind]:
        remarks.append("mislabelled")
    if image.mode == "CMYK":
        remarks.append("cmyk")
    if _bits(found) > 8:
        remarks.append("deep")
    if getattr(image, "n_frames", 1) > 1:
        remarks.append("frames")
    if image.mode in ("RGBA", "LA", "PA") or "transparency" in image.info:
        remarks.append("transparent")
    return remarks


def _bits(found: Opened) -> int:
    """Bits per colour as stored: Pillow gives deep colour pictures as if they had eight.

    PNG: byte 24, in the first chunk (PNG specification, 11.2.2). TIFF: tag 258.
    """
    if found.kind == "PNG":
        found.file.seek(24)
        return (found.file.read(1) or b"\x08")[0]
    if found.kind == "TIFF":
        bits = getattr(found.image, "tag_v2", {}).get(_BITS_PER_SAMPLE, 8)
        return max(bits) if isinstance(bits, tuple) and bits else bits if isinstance(bits, int) else 8
    return 8


def remark_sentence(name: str, facts: PictureFacts, remark: Remark) -> str:
    """What a person is told about an oddity."""
    if remark == "mislabelled":
        return say(
            "“{file}” is named like another format, but is {kind}; it is read as that.", file=name, kind=facts.kind
        )
    if remark == "cmyk":
        return say("“{file}” is in CMYK; colours may shift a little when it becomes sRGB.", file=name)
    if remark == "deep":
        return say("“{file}” has 16 bits per colour; prints have 8.", file=name)
    if remark == "frames":
        return say("“{file}” holds several pictures; the first one is used.", file=name)
    return say("“{file}” is transparent in places; they are printed white.", file=name)


def digest(path: Path) -> tuple[str, int]:
    """SHA-256 of a file's content, and its length in bytes.

    Raises:
        BadPicture: when it is missing or cannot be read.
    """
    hashed, size = hashlib.sha256(), 0
    try:
        if path.exists() and not path.is_file():
            raise BadPicture("unreadable", say("“{file}” is not a file.", file=path.name))
        with path.open("rb") as file:
            while block := file.read(_BLOCK):
                hashed.update(block)
                size += len(block)
    except FileNotFoundError:
        raise BadPicture("missing", say("There is no picture “{file}”.", file=path)) from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise BadPicture(
            "unreadable", say("“{file}” cannot be read: {reason}.", file=path.name, reason=reason)
        ) from error
    return hashed.hexdigest(), size


def with_facts(picture: Picture, path: Path) -> Picture:
    """The picture with digest, size, pixels and profile of the file as it is now.

    Raises:
        BadPicture: when the file cannot be used.
    """
    facts = probe(path)
    hashed, size = digest(path)
    return Picture(
        key=picture.key,
        path=picture.path,
        sha256=hashed,
        size_bytes=size,
        pixels=facts.pixels,
        profile=facts.profile,
        source=picture.source,
        licence=picture.licence,
    )
