"""The frame, in framers' terms: face, depth, rabbet, lip, sight size, glazing, backing."""

from typing import Literal

import msgspec

from composer.model.scalars import BadRecord, check_length, check_text
from composer.texts import N_, say
from composer.units import Length

Glazing = Literal["glass", "acrylic", "styrene", "none", "unknown"]


class Frame(msgspec.Struct, frozen=True, kw_only=True, forbid_unknown_fields=True, omit_defaults=True):
    """One frame as it lies on the table; None always means "not measured yet".

    Attributes:
        width, height: outside, edge to edge.
        depth: from the wall to the front of the moulding.
        face: width of the moulding seen from the front.
        lip: how far the moulding reaches over the rabbet opening, each side.
        rabbet_depth: depth of the recess that holds glass, mat, print and backing.
        allowance: how much smaller than the rabbet opening the glass is, in all.
        sight_width, sight_height: what stays visible, measured from the front; wins over face.
        glass_width, glass_height: measured from the back; wins over face and lip.
        moulding: catalogue id of its material.
        moulding_thickness: from the front of the moulding to its back.
        profile_area_mm2: cross-section of a hollow or shaped moulding, in mm².
        glazing, glazing_thickness, backing, backing_thickness: what lies in the rabbet.
        diagonal_rising, diagonal_falling: corner to corner; equal in a square frame.
        condition: what the person noted about joints, hangers, woodworm.
    """

    width: Length
    height: Length
    depth: Length | None = None
    face: Length | None = None
    lip: Length | None = None
    rabbet_depth: Length | None = None
    allowance: Length | None = None
    sight_width: Length | None = None
    sight_height: Length | None = None
    glass_width: Length | None = None
    glass_height: Length | None = None
    moulding: str | None = None
    moulding_thickness: Length | None = None
    profile_area_mm2: float | None = None
    glazing: Glazing = "unknown"
    glazing_thickness: Length | None = None
    backing: str | None = None
    backing_thickness: Length | None = None
    colour: str | None = None
    diagonal_rising: Length | None = None
    diagonal_falling: Length | None = None
    condition: str = ""

    def __post_init__(self) -> None:
        for name, length in (
            (N_("width"), self.width),
            (N_("height"), self.height),
            (N_("depth"), self.depth),
            (N_("face"), self.face),
            (N_("rabbet depth"), self.rabbet_depth),
            (N_("sight width"), self.sight_width),
            (N_("sight height"), self.sight_height),
            (N_("glass width"), self.glass_width),
            (N_("glass height"), self.glass_height),
            (N_("moulding's thickness"), self.moulding_thickness),
            (N_("glazing's thickness"), self.glazing_thickness),
            (N_("backing's thickness"), self.backing_thickness),
            (N_("diagonal"), self.diagonal_rising),
            (N_("diagonal"), self.diagonal_falling),
        ):
            check_length(length, name)
        check_length(self.lip, N_("lip"), zero=True)
        check_length(self.allowance, N_("allowance"), zero=True)
        check_text(self.condition, most=5000, lines=True)
        for text in (self.moulding, self.backing, self.colour):
            check_text(text or "")
        if self.profile_area_mm2 is not None and not 0 < self.profile_area_mm2 < 1e5:
            raise BadRecord(
                say("A moulding's section must be between 0 and 1 000 cm², not {area} mm².", area=self.profile_area_mm2)
            )
        if self.face is not None:
            if 2 * self.face.exact_mm >= min(self.width.exact_mm, self.height.exact_mm):
                raise BadRecord(
                    say(
                        "A face of {face} on both sides leaves nothing of a frame {width} by {height}.",
                        face=self.face.text,
                        width=self.width.text,
                        height=self.height.text,
                    )
                )
            if self.lip is not None and self.lip.exact_mm > self.face.exact_mm:
                raise BadRecord(
                    say(
                        "The lip ({lip}) cannot be wider than the moulding's face ({face}).",
                        lip=self.lip.text,
                        face=self.face.text,
                    )
                )

    @property
    def sight_mm(self) -> tuple[float, float] | None:
        """Sight size, width and height in mm: as measured, else outside − 2 × face; None when unknown."""
        width = self._sight(self.sight_width, self.width)
        height = self._sight(self.sight_height, self.height)
        return None if width is None or height is None else (width, height)

    def _sight(self, measured: Length | None, outside: Length) -> float | None:
        if measured is not None:
            return measured.mm
        return None if self.face is None else outside.mm - 2 * self.face.mm

    @property
    def opening_mm(self) -> tuple[float, float] | None:
        """Rabbet opening seen from the back, in mm: sight + 2 × lip; None when unknown."""
        sight = self.sight_mm
        if sight is None or self.lip is None:
            return None
        return sight[0] + 2 * self.lip.mm, sight[1] + 2 * self.lip.mm

    @property
    def glass_mm(self) -> tuple[float, float] | None:
        """Glass size in mm: as measured from the back, else opening − allowance; None when unknown."""
        opening = self.opening_mm
        allowance = 0.0 if self.allowance is None else self.allowance.mm
        width = self.glass_width.mm if self.glass_width else opening and opening[0] - allowance
        height = self.glass_height.mm if self.glass_height else opening and opening[1] - allowance
        return (width, height) if width and height else None
