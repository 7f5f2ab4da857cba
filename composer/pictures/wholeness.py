"""What a file's first and last bytes say: its format, whatever its name claims, and whether it is all there.

Decoders fill a cut-off picture with grey and call it loaded, so the end is looked for here, without
decoding: JPEG's end marker (ITU-T T.81, B.1.1.3), PNG's last chunk (PNG specification, 5.6), the
length in a RIFF header (WebP container), and TIFF's strips (TIFF 6.0, section 3).
"""

import os
import struct
from collections.abc import Iterator
from typing import BinaryIO, Literal

Format = Literal["JPEG", "PNG", "TIFF", "WEBP"]

HEAD_BYTES = 64
_BLOCK = 1 << 16

OTHERS: tuple[tuple[int, bytes, str], ...] = (
    (0, b"GIF8", "GIF"),
    (0, b"BM", "BMP"),
    (0, b"8BPS", "PSD"),
    (0, b"%PDF", "PDF"),
    (0, b"%!PS", "PostScript"),
    (0, b"\x00\x00\x00\x0cjP  ", "JPEG 2000"),
    (0, b"\xff\x4f\xff\x51", "JPEG 2000"),
    (0, b"\xff\x0a", "JPEG XL"),
    (0, b"\x00\x00\x00\x0cJXL ", "JPEG XL"),
    (0, b"SIMPLE  =", "FITS"),
    (4, b"ftypavif", "AVIF"),
    (4, b"ftyphei", "HEIC"),
    (4, b"ftyphev", "HEIC"),
    (4, b"ftypmif", "HEIC"),
    (4, b"ftypmsf", "HEIC"),
    (0, b"<svg", "SVG"),
    (0, b"<?xml", "XML"),
    (0, b"<!DOCTYPE", "HTML"),
    (0, b"<html", "HTML"),
    (0, b"PK\x03\x04", "ZIP"),
)
"""Formats that are recognised only to be named when they are refused."""


def format_of(head: bytes) -> Format | None:
    """The format by the file's first bytes."""
    if head.startswith(b"\xff\xd8\xff"):
        return "JPEG"
    if head.startswith(b"\x89PNG\r\n\x1a\n"):
        return "PNG"
    if head[:4] in (b"II*\0", b"MM\0*", b"II+\0", b"MM\0+"):
        return "TIFF"
    if head.startswith(b"RIFF") and head[8:12] == b"WEBP":
        return "WEBP"
    return None


def other_format(head: bytes) -> str | None:
    """What else it is, where that can be told."""
    return next((name for at, magic, name in OTHERS if head[at : at + len(magic)].lower() == magic.lower()), None)


def is_whole(file: BinaryIO, kind: Format) -> bool:
    """Whether the file ends where its format says; TIFF is checked by its strips elsewhere."""
    length = file.seek(0, os.SEEK_END)
    if kind == "JPEG":
        return _jpeg_ends(file, length)
    if kind == "PNG":
        return _png_ends(file, length)
    if kind == "WEBP":
        file.seek(4)
        (riff,) = struct.unpack("<I", file.read(4))
        return bool(riff + 8 <= length + 1)
    return True


def webp_pixels(head: bytes) -> tuple[int, int] | None:
    """A WebP's width and height from its first chunk, before any decoder makes room for them."""
    kind, body = head[12:16], head[20:]
    if kind == b"VP8X" and len(body) >= 10:
        return int.from_bytes(body[4:7], "little") + 1, int.from_bytes(body[7:10], "little") + 1
    if kind == b"VP8L" and len(body) >= 5 and body[0] == 0x2F:
        bits = int.from_bytes(body[1:5], "little")
        return (bits & 0x3FFF) + 1, (bits >> 14 & 0x3FFF) + 1
    if kind == b"VP8 " and len(body) >= 10:
        return int.from_bytes(body[6:8], "little") & 0x3FFF, int.from_bytes(body[8:10], "little") & 0x3FFF
    return None


def _jpeg_ends(file: BinaryIO, length: int) -> bool:
    start = _first_scan(file, length)
    if start is None:
        return False
    # In a scan a byte FF is followed by 00 or a restart marker, so FF D9 can only be the end.
    # It is nearly always the last thing; only where something was put behind it is the whole read.
    tail = max(start, length - _BLOCK)
    file.seek(tail)
    if b"\xff\xd9" in file.read():
        return True
    file.seek(start)
    before = b""
    while file.tell() < tail and (block := file.read(_BLOCK)):
        if b"\xff\xd9" in before + block:
            return True
        before = block[-1:]
    return False


def _first_scan(file: BinaryIO, length: int) -> int | None:
    """Where the picture's own data begins, behind every thumbnail in the head; None when it never does."""
    at = 2
    while at + 4 <= length:
        file.seek(at)
        marker = file.read(4)
        if len(marker) < 4 or marker[0] != 0xFF:
            return None
        if marker[1] == 0xFF:  # a fill byte
            at += 1
        elif marker[1] == 0x01 or 0xD0 <= marker[1] <= 0xD8:  # stands alone
            at += 2
        elif marker[1] == 0xD9:
            return None
        else:
            at += 2 + int.from_bytes(marker[2:], "big")
            if marker[1] == 0xDA:
                return at if at <= length else None
    return None


def png_exif(file: BinaryIO) -> bytes:
    """The EXIF block of a PNG (chunk ``eXIf``), wherever it stands; empty where there is none."""
    place = file.tell()
    try:
        length = file.seek(0, os.SEEK_END)
        for kind, at, size in _png_chunks(file, length):
            if kind == b"eXIf":
                file.seek(at)
                return file.read(min(size, _BLOCK))
    finally:
        file.seek(place)
    return b""


def _png_ends(file: BinaryIO, length: int) -> bool:
    return any(kind == b"IEND" and at + size + 4 <= length for kind, at, size in _png_chunks(file, length))


def _png_chunks(file: BinaryIO, length: int) -> Iterator[tuple[bytes, int, int]]:
    """Kind, start and size of each chunk's body, up to the last one."""
    at = 8
    while at + 12 <= length:
        file.seek(at)
        size, kind = struct.unpack(">I4s", file.read(8))
        yield kind, at + 8, size
        if kind == b"IEND":
            return
        at += 12 + size
