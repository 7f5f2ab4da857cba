"""What a piece weighs: as weighed, else estimated from its parts.

An estimate is for planning only; a finished frame goes on the scales before it goes on the wall.
It is made only where moulding, glazing and sizes are known. What else is missing (backing, depth of
the rabbet, thickness of the glass) is taken as usual and widens the range between low and high.
"""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Literal

from composer.catalogue.catalogue import Catalogue, usual
from composer.catalogue.records import Material
from composer.hanging.mass_kernel import centroid_mm, moulding_volume_mm3, profile_area_mm2, sheet_kg, solid_kg
from composer.model.frame import Frame, Glazing
from composer.model.mat import Mat
from composer.model.piece import Piece
from composer.model.scalars import Units
from composer.units import Kg, Mm

PartName = Literal["moulding", "glazing", "mat", "print", "backing", "hardware"]

USUAL_BACKING = "mdf"
USUAL_BOARD = "mat-4-ply"
USUAL_PAPER = "photo"
THICKER = 1.25
"""Sheets nobody measured may be this much thicker than usual (2 mm glass: 2.5 mm; judgement)."""


@dataclass(frozen=True, slots=True)
class Part:
    """One part of an estimate.

    Attributes:
        what: moulding, glazing, mat, print, backing or hardware.
        material: entry of the catalogue it was counted with.
        kg, low, high: its mass and how far it may lie from that.
        volume_mm3, kg_per_m3: for what is cut to a thickness; else None.
        area_mm2, g_per_m2: for what is sold by grammage; else None.
        assumed: nobody measured or chose it; the usual was taken.
    """

    what: PartName
    material: str
    kg: Kg
    low: Kg
    high: Kg
    volume_mm3: float | None = None
    kg_per_m3: float | None = None
    area_mm2: float | None = None
    g_per_m2: float | None = None
    assumed: bool = False


@dataclass(frozen=True, slots=True)
class PieceWeight:
    """What a piece weighs, kg; ``low`` and ``high`` are the same as ``kg`` when it was weighed."""

    kg: Kg
    low: Kg
    high: Kg
    measured: bool
    parts: tuple[Part, ...] = ()

    def share(self, what: PartName) -> float:
        """What a part makes of the whole, 0 to 1."""
        return sum(part.kg for part in self.parts if part.what == what) / self.kg


def weight_of(piece: Piece, catalogue: Catalogue | None = None) -> PieceWeight | None:
    """The weight as weighed, else as estimated; None when too little is known for either."""
    if piece.weight is not None:
        kg = piece.weight.kg
        return PieceWeight(kg, kg, kg, measured=True)
    return estimate(piece, usual() if catalogue is None else catalogue)


def estimate(piece: Piece, catalogue: Catalogue) -> PieceWeight | None:
    """The weight by its parts, also where it was weighed; None when moulding, glazing or sizes are unknown."""
    frame = piece.frame
    glass = frame.glass_mm
    moulding = _moulding(frame, catalogue)
    if glass is None or moulding is None or frame.glazing == "unknown":
        return None
    area = glass[0] * glass[1]
    parts = (
        moulding,
        *_glazing(frame.glazing, frame, area, catalogue),
        *_mats(piece.mat, glass, catalogue),
        _print(piece, glass, catalogue),
        *_backing(frame, area, catalogue),
        _hardware(frame, catalogue),
    )
    return PieceWeight(
        Kg(sum(part.kg for part in parts)),
        Kg(sum(part.low for part in parts)),
        Kg(sum(part.high for part in parts)),
        measured=False,
        parts=parts,
    )


def with_glazing(piece: Piece, glazing: Glazing, catalogue: Catalogue | None = None) -> PieceWeight | None:
    """What the piece would weigh with other glazing of the same thickness: "what if acrylic for glass?"

    From the weight as weighed, less its glazing as computed, plus the other; else from the estimate. None
    when either glazing's size or kind is unknown.
    """
    known = usual() if catalogue is None else catalogue
    now, glass = weight_of(piece, known), piece.frame.glass_mm
    if now is None or glass is None or "unknown" in (piece.frame.glazing, glazing):
        return None
    area = glass[0] * glass[1]
    off = list(_glazing(piece.frame.glazing, piece.frame, area, known))
    on = list(_glazing(glazing, piece.frame, area, known))
    kg = now.kg - sum(part.kg for part in off) + sum(part.kg for part in on)
    if now.measured:
        # Where nobody measured the thickness the difference may be as much larger or smaller.
        spread = sum(part.high - part.low for part in (*off, *on)) / 2
        low, high = kg - spread, kg + spread
    else:
        low = now.low - sum(part.low for part in off) + sum(part.low for part in on)
        high = now.high - sum(part.high for part in off) + sum(part.high for part in on)
    parts = tuple(part for part in now.parts if part.what != "glazing")
    return PieceWeight(Kg(max(0.0, kg)), Kg(max(0.0, low)), Kg(max(0.0, high)), measured=False, parts=(*parts, *on))


def _moulding(frame: Frame, catalogue: Catalogue) -> Part | None:
    material = catalogue.mouldings.get(frame.moulding or "")
    density = None if material is None else material.kg_per_m3()
    if material is None or density is None or frame.face is None:
        return None
    width, height, face = frame.width.mm, frame.height.mm, frame.face.mm
    if frame.profile_area_mm2 is not None:
        volume = moulding_volume_mm3(width, height, frame.profile_area_mm2, Mm(face / 2))
        return _solid("moulding", material, volume, density, assumed=False)
    thickness = frame.moulding_thickness or frame.depth
    if thickness is None:
        return None
    lip = Mm(0.0) if frame.lip is None else frame.lip.mm
    if frame.rabbet_depth is None:
        middle = _volume(width, height, face, thickness.mm, lip, Mm(thickness.mm / 2))
        solid = _volume(width, height, face, thickness.mm, Mm(0.0), Mm(0.0))
        part = _solid("moulding", material, middle, density, assumed=True)
        return replace(part, high=Kg(solid_kg(solid, density) * (1 + material.spread)))
    volume = _volume(width, height, face, thickness.mm, lip, Mm(min(frame.rabbet_depth.mm, thickness.mm)))
    return _solid("moulding", material, volume, density, assumed=frame.moulding_thickness is None)


def _volume(width: Mm, height: Mm, face: Mm, thickness: Mm, lip: Mm, rabbet_depth: Mm) -> float:
    area = profile_area_mm2(face, thickness, lip, rabbet_depth)
    if area <= 0:
        return 0.0
    return moulding_volume_mm3(width, height, area, centroid_mm(face, thickness, lip, rabbet_depth))


def _glazing(kind: Glazing, frame: Frame, area: float, catalogue: Catalogue) -> Iterable[Part]:
    if kind in ("none", "unknown"):
        return
    material = catalogue.glazing[kind]
    measured = frame.glazing_thickness
    yield _sheet("glazing", material, area, None if measured is None else measured.mm)


def _mats(mat: Mat | None, glass: tuple[float, float], catalogue: Catalogue) -> Iterable[Part]:
    if mat is None:
        return
    window = window_mm(mat, glass)
    boards = [layer.board for layer in mat.layers] or [USUAL_BOARD]
    for board in boards:
        material = catalogue.boards.get(board) or catalogue.boards[USUAL_BOARD]
        area = glass[0] * glass[1] - (window[0] * window[1] if window else 0.0)
        part = _sheet("mat", material, area, material.usual_mm)
        if window is None:
            part = replace(part, low=Kg(part.low * 0.3), assumed=True)
        yield part


def window_mm(mat: Mat, outside: tuple[float, float]) -> tuple[float, float] | None:
    """The mat's window, mm; None where it is not decided, or nothing of the board would be open."""
    window = mat.window_mm(outside)
    return None if window is None or min(window) <= 0 else window


def _units(frame: Frame) -> Units:
    """In which units somebody measured: what is usual where nothing was typed follows them."""
    return "imperial" if frame.width.unit in ("in", "ft") else "metric"


def _print(piece: Piece, glass: tuple[float, float], catalogue: Catalogue) -> Part:
    use = None if piece.current_use is None else piece.uses[piece.current_use]
    chosen = catalogue.papers.get((use and use.print.paper) or "")
    paper = chosen or catalogue.papers[USUAL_PAPER]
    width, height = glass
    if piece.mat is not None:
        window = window_mm(piece.mat, glass)
        if window is not None:
            overlap = piece.mat.overlap_mm(_units(piece.frame))
            width, height = window[0] + 2 * overlap, window[1] + 2 * overlap
    part = _sheet("print", paper, width * height, paper.usual_mm)
    return part if chosen else replace(part, assumed=True)


def _backing(frame: Frame, area: float, catalogue: Catalogue) -> Iterable[Part]:
    material = catalogue.backings.get(frame.backing or "")
    if material is not None:
        yield _sheet("backing", material, area, None if frame.backing_thickness is None else frame.backing_thickness.mm)
        return
    part = _sheet("backing", catalogue.backings[USUAL_BACKING], area, None)
    light = catalogue.backings["corrugated"].grammage_g_m2 or 0.0
    yield replace(part, low=min(part.low, sheet_kg(area, light)), assumed=True)


def _hardware(frame: Frame, catalogue: Catalogue) -> Part:
    longer = max(frame.width.mm, frame.height.mm)
    record = next(one for one in catalogue.hardware if one.up_to_side_mm is None or longer <= one.up_to_side_mm)
    return Part("hardware", record.entry, record.mass, Kg(0.0), Kg(2 * record.mass_kg), assumed=True)


def _solid(what: PartName, material: Material, volume: float, density: float, *, assumed: bool) -> Part:
    kg = solid_kg(volume, density)
    return Part(
        what,
        material.entry,
        kg,
        Kg(kg * (1 - material.spread)),
        Kg(kg * (1 + material.spread)),
        volume_mm3=volume,
        kg_per_m3=density,
        assumed=assumed,
    )


def _sheet(what: PartName, material: Material, area: float, thickness: float | None) -> Part:
    """A sheet by grammage, else by density and thickness, the usual one where nobody measured it."""
    density = material.kg_per_m3()
    if density is not None:
        used = (material.usual_mm or 0.0) if thickness is None else thickness
        part = _solid(what, material, area * used, density, assumed=thickness is None)
        return part if thickness is not None else replace(part, high=Kg(part.high * THICKER))
    grammage = material.grammage_g_m2 or 0.0
    if thickness is not None and material.usual_mm:
        grammage *= thickness / material.usual_mm
    kg = sheet_kg(area, grammage)
    return Part(
        what,
        material.entry,
        kg,
        Kg(kg * (1 - material.spread)),
        Kg(kg * (1 + material.spread)),
        area_mm2=area,
        g_per_m2=grammage,
        assumed=thickness is None,
    )
