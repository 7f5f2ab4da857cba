"""Pictures: the file, how it is cropped, and the print to be ordered of it."""

from typing import Literal

import msgspec

from composer.model.scalars import BadRecord, Key, Money, check_key, check_money, check_text
from composer.texts import say


class Picture(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """A picture file, found by its path relative to the project and known by its content.

    Attributes:
        path: relative to the project's folder, with ``/``.
        sha256: digest of its content, 64 hexadecimal digits; None = not read yet.
        size_bytes: of the file; None = not read yet.
        pixels: width and height after turning as the camera noted; None = not read yet.
        profile: name of its colour profile.
        source, licence: where it comes from and what may be done with it.
    """

    key: Key
    path: str
    sha256: str | None = None
    size_bytes: int | None = None
    pixels: tuple[int, int] | None = None
    profile: str | None = None
    source: str = ""
    licence: str = ""

    def __post_init__(self) -> None:
        check_key(self.key, "i")
        check_text(self.path, most=1000)
        if not self.path or "\\" in self.path:
            raise BadRecord(say("A picture's path is written with “/”, not “{path}”.", path=self.path[:60]))
        if self.sha256 is not None and not _is_digest(self.sha256):
            raise BadRecord(say("“{digest}” is not a SHA-256 digest.", digest=self.sha256[:20]))
        if self.size_bytes is not None and self.size_bytes < 0:
            raise BadRecord(say("A file cannot have {count} bytes.", count=self.size_bytes))
        if self.pixels is not None and min(self.pixels) < 1:
            raise BadRecord(say("A picture has at least one pixel each way."))
        check_text(self.profile or "")
        check_text(self.source)
        check_text(self.licence)


class Crop(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """What of the picture shows. Centre and zoom, not a rectangle: a changed frame keeps the picture's centre.

    Attributes:
        centre: 0…1 of the picture's width and height, from its upper left corner.
        zoom: 1 = just fills the opening; more = closer.
        turn: quarter turns clockwise, degrees.
        tilt_deg: small correction of the horizon, −10…10.
    """

    centre: tuple[float, float] = (0.5, 0.5)
    zoom: float = 1.0
    turn: Literal[0, 90, 180, 270] = 0
    tilt_deg: float = 0.0

    def __post_init__(self) -> None:
        if not all(0 <= part <= 1 for part in self.centre):
            raise BadRecord(say("A crop's centre lies within the picture, not at {centre}.", centre=self.centre))
        if not 1 <= self.zoom <= 100:
            raise BadRecord(say("A crop's zoom is 1 to 100, not {zoom}.", zoom=self.zoom))
        if not -10 <= self.tilt_deg <= 10:
            raise BadRecord(say("A picture is tilted by up to 10°, not {tilt}°.", tilt=self.tilt_deg))


class PrintChoice(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """The print to be ordered.

    Attributes:
        stock: catalogue id of the stock size; None = the cheapest that covers.
        paper: kind of paper, in the person's own words.
        cut: where the picture sits on the sheet before trimming.
        edge: bleed into the waste, or leave it plain.
        price: what the lab asks for one.
        shared: catalogue id of a larger stock size on which several prints share a sheet; None = its own sheet.
    """

    stock: str | None = None
    paper: str | None = None
    cut: Literal["centred", "left", "right", "top", "bottom"] = "left"
    edge: Literal["bleed", "plain"] = "plain"
    price: Money | None = None
    shared: str | None = None

    def __post_init__(self) -> None:
        check_text(self.stock or "")
        check_text(self.shared or "")
        check_text(self.paper or "")
        if self.price is not None:
            check_money(self.price)


class PictureUse(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """One picture a frame may show; ``label`` tells several apart ("summer")."""

    picture: Key
    label: str = ""
    crop: Crop = Crop()
    print: PrintChoice = PrintChoice()

    def __post_init__(self) -> None:
        check_key(self.picture, "i")
        check_text(self.label)


def _is_digest(text: str) -> bool:
    return len(text) == 64 and all(sign in "0123456789abcdef" for sign in text)
