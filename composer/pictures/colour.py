"""Whatever a file holds, as 8-bit sRGB on white: CMYK, 16 bits, palettes, transparency, other profiles."""

import io
from functools import lru_cache

from PIL import Image, ImageCms

from composer.pictures.refused import BadPicture
from composer.texts import say

_FLAGS = ImageCms.Flags.BLACKPOINTCOMPENSATION
_DATE = slice(24, 36)
_FIXED_DATE = bytes([7, 208, 0, 1, 0, 1, 0, 0, 0, 0, 0, 0])


@lru_cache(maxsize=1)
def srgb_bytes() -> bytes:
    """An sRGB profile (IEC 61966-2-1), the same bytes at each call and on each day."""
    made = bytearray(ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes())
    made[_DATE] = _FIXED_DATE  # bytes 24 to 35 of a profile's head say when it was made (ICC.1, 7.2.8)
    return bytes(made)


def profile_name(image: Image.Image) -> str | None:
    """What the embedded profile calls itself; None = there is none, or it cannot be read."""
    data = image.info.get("icc_profile")
    if not data:
        return None
    try:
        name = ImageCms.getProfileDescription(ImageCms.ImageCmsProfile(io.BytesIO(data)))
    except (ImageCms.PyCMSError, OSError, TypeError, ValueError):
        return None
    plain = "".join(sign if sign.isprintable() else " " for sign in name).strip()[:100]
    return plain or None


def resizable(image: Image.Image, name: str) -> Image.Image:
    """The image in a mode that can be resized without loss of tone: L, LA, RGB, RGBA, CMYK or LAB.

    Raises:
        BadPicture: 32-bit and floating-point pictures have no agreed white.
    """
    mode = image.mode
    if mode in ("L", "LA", "RGB", "RGBA", "CMYK", "LAB"):
        return image
    if mode.startswith("I;16"):
        return image.convert("I").point([value >> 8 for value in range(65536)], "L")
    if mode in ("I", "F"):
        raise BadPicture(
            "too-deep", say("“{file}” has 32 bits per pixel; save it with 8 or 16 bits per colour.", file=name)
        )
    if mode == "P":
        return image.convert("RGBA" if "transparency" in image.info else "RGB")
    if mode in ("PA", "La", "RGBa"):
        return image.convert("RGBA")
    return image.convert("L" if mode == "1" else "RGB")


def on_white_in_srgb(image: Image.Image, profile: bytes | None) -> Image.Image:
    """A resizable image as RGB in sRGB, what is transparent filled with white."""
    if image.mode in ("LA", "RGBA"):
        image = image.convert("RGBA")
        ground = Image.new("RGB", image.size, "white")
        ground.paste(image, mask=image.getchannel("A"))
        image = ground
    if profile:
        converted = _converted(image, profile)
        if converted is not None:
            return converted
    return image if image.mode == "RGB" else image.convert("RGB")


def _converted(image: Image.Image, profile: bytes) -> Image.Image | None:
    """By the profile, relative colorimetric with black point compensation; None where it does not fit."""
    try:
        source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
        space = source.profile.xcolor_space.strip()
        if space == "RGB" and "sRGB" in (source.profile.profile_description or ""):
            return None
        wanted = {"RGB": "RGB", "GRAY": "L", "CMYK": "CMYK", "Lab": "LAB"}.get(space)
        if wanted != image.mode:
            if space != "RGB" or image.mode not in ("L", "RGB"):
                return None
            image = image.convert("RGB")
        made = ImageCms.profileToProfile(
            image,
            source,
            ImageCms.ImageCmsProfile(io.BytesIO(srgb_bytes())),
            renderingIntent=ImageCms.Intent.RELATIVE_COLORIMETRIC,
            outputMode="RGB",
            flags=_FLAGS,
        )
    except (ImageCms.PyCMSError, OSError, TypeError, ValueError):
        return None
    return made
