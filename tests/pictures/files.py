"""Pictures for the tests: real ones from installed packages, and made ones, sound and hostile."""

import importlib.util
import io
import struct
import zlib
from pathlib import Path

import numpy as np
from PIL import Image

RETINA = ("skimage", "data/retina.jpg")
HUBBLE = ("skimage", "data/hubble_deep_field.jpg")
COFFEE = ("skimage", "data/coffee.png")
CHELSEA = ("skimage", "data/chelsea.png")
MOON = ("skimage", "data/moon.png")
LOGO = ("skimage", "data/logo.png")
CHINA = ("sklearn", "datasets/images/china.jpg")
FLOWER = ("sklearn", "datasets/images/flower.jpg")


def real(which: tuple[str, str]) -> Path:
    """The file of a picture that ships in a package; the package is not imported."""
    found = importlib.util.find_spec(which[0])
    assert found is not None and found.origin is not None
    return Path(found.origin).parent / which[1]


def ramp(width: int, height: int) -> Image.Image:
    """Red grows to the right, green downwards, blue is half: every place tells where it is."""
    x = np.linspace(0, 255, width, dtype=np.float64)
    y = np.linspace(0, 255, height, dtype=np.float64)
    pixels = np.empty((height, width, 3), dtype=np.uint8)
    pixels[..., 0] = np.round(x)[None, :]
    pixels[..., 1] = np.round(y)[:, None]
    pixels[..., 2] = 128
    return Image.fromarray(pixels)


def saved(image: Image.Image, path: Path, **options: object) -> Path:
    image.save(path, **options)  # type: ignore[arg-type]
    return path


def chunk(kind: bytes, body: bytes) -> bytes:
    return struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))


def one_bit_png(width: int, height: int) -> bytes:
    """A PNG of zeros, tiny on disk however large it says it is."""
    head = struct.pack(">IIBBBBB", width, height, 1, 0, 0, 0, 0)
    packer = zlib.compressobj(9)
    row = bytes(1 + (width + 7) // 8)
    body = b"".join(packer.compress(row) for _ in range(height)) + packer.flush()
    return b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", body) + chunk(b"IEND", b"")


def webp_that_claims(width: int, height: int) -> bytes:
    """The head of a WebP that says how large a canvas it wants."""
    size = (width - 1).to_bytes(3, "little") + (height - 1).to_bytes(3, "little")
    body = b"VP8X" + struct.pack("<I", 10) + bytes(4) + size
    return b"RIFF" + struct.pack("<I", 4 + len(body)) + b"WEBP" + body


def jpeg_with_thumbnail(image: Image.Image) -> bytes:
    """A JPEG that carries a whole small JPEG in its head, as cameras write them."""
    small, large = io.BytesIO(), io.BytesIO()
    image.resize((64, 48)).save(small, "JPEG")
    image.save(large, "JPEG", quality=90)
    thumbnail = small.getvalue()
    block = b"\xff\xe2" + struct.pack(">H", len(thumbnail) + 2) + thumbnail
    return large.getvalue()[:2] + block + large.getvalue()[2:]
