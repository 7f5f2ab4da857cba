"""Float kernels of the weight estimate: volumes of moulding, masses of sheets and of cut lengths."""

from composer.units import Kg, Mm


def profile_area_mm2(face: Mm, thickness: Mm, rabbet_width: Mm, rabbet_depth: Mm) -> float:
    """Cross-section of a plain moulding, mm²: a rectangle less its rabbet."""
    return face * thickness - rabbet_width * rabbet_depth


def centroid_mm(face: Mm, thickness: Mm, rabbet_width: Mm, rabbet_depth: Mm) -> Mm:
    """From the frame's outer edge to the centroid of that cross-section, mm; the rabbet lies inside."""
    rabbet = rabbet_width * rabbet_depth
    area = face * thickness - rabbet
    return Mm((face * thickness * face / 2 - rabbet * (face - rabbet_width / 2)) / area)


def moulding_volume_mm3(width: Mm, height: Mm, area_mm2: float, centroid: Mm) -> float:
    """Volume of four mitred lengths, mm³: ``A · (2 (W + H) − 8 x̄)``.

    Exact for any moulding of one section (Pappus: each length is as long as the way of its centroid).
    """
    return area_mm2 * (2 * (width + height) - 8 * centroid)


def solid_kg(volume_mm3: float, kg_per_m3: float) -> Kg:
    """Mass of a volume, kg."""
    return Kg(volume_mm3 * kg_per_m3 * 1e-9)


def sheet_kg(area_mm2: float, g_per_m2: float) -> Kg:
    """Mass of a sheet by its grammage, kg."""
    return Kg(area_mm2 * g_per_m2 * 1e-9)
