"""Draws the sample walls' pictures into ``samples/pictures/``: flat illustrations of our own, no photographs.

python tests/make_pictures.py        writes them into samples/pictures/
python tests/make_pictures.py DIR    writes them into DIR
"""

import math
import random
import sys
from collections.abc import Callable
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
sys.path.insert(0, str(ROOT))

from tests.painting import Point, Sheet  # noqa: E402


def low_tide(sheet: Sheet) -> None:
    """Two boats aground before a low sun."""
    sheet.box(0, 0, sheet.wide, 0.52, "#E9C9A1")
    sheet.box(0, 0, sheet.wide, 0.16, "#DDB892")
    sheet.disc(0.53, 0.45, 0.105, "#C8643C")
    sheet.below([(-0.1, 0.47), (0.12, 0.40), (0.30, 0.45), (0.52, 0.37), (0.70, 0.44), (0.95, 0.41)], "#7F7A72")
    sheet.box(0, 0.50, sheet.wide, 1, "#5E7F86")
    for number in range(5):
        half = 0.09 - number * 0.012
        sheet.box(0.53 - half, 0.525 + number * 0.026, 0.53 + half, 0.534 + number * 0.026, "#D98A5B", 0.004)
    sheet.below(sheet.wave(0.70, 0.012, 0.6), "#B59B77")
    sheet.below(sheet.wave(0.80, 0.015, 0.9, 0.3), "#9E8360")
    for x, y, size, hull, sail in ((0.26, 0.71, 1.0, "#7A3E2B", "#F3E7D2"), (0.60, 0.66, 0.62, "#33505A", "#E8D3B0")):
        sheet.area(
            [
                (x - 0.16 * size, y),
                (x + 0.17 * size, y),
                (x + 0.12 * size, y + 0.055 * size),
                (x - 0.11 * size, y + 0.055 * size),
            ],
            hull,
        )
        sheet.line([(x, y), (x, y - 0.33 * size)], "#3A2A20", 0.006 * size)
        sheet.area(
            [
                (x + 0.012 * size, y - 0.32 * size),
                (x + 0.012 * size, y - 0.03 * size),
                (x + 0.13 * size, y - 0.03 * size),
            ],
            sail,
        )
        sheet.area(
            [
                (x - 0.012 * size, y - 0.28 * size),
                (x - 0.012 * size, y - 0.03 * size),
                (x - 0.10 * size, y - 0.03 * size),
            ],
            sail,
        )
    for x, y in ((0.1, 0.9), (0.42, 0.88), (0.68, 0.93), (0.2, 0.96)):
        sheet.disc(x, y, 0.016, "#86704F", 0.006)


def three_jars(sheet: Sheet) -> None:
    """Three jars on a shelf."""
    sheet.box(0, 0.78, sheet.wide, 1, "#8C5B3F")
    sheet.box(0, 0.78, sheet.wide, 0.80, "#A87450")
    for x, half, top, body, light, lid in (
        (0.38, 0.17, 0.24, "#B4533A", "#CC7257", "#4A3A31"),
        (0.87, 0.15, 0.38, "#55715B", "#728D76", "#2F3B34"),
        (1.34, 0.19, 0.18, "#C79A3D", "#DDB766", "#7A4B2A"),
    ):
        sheet.disc(x + 0.05, 0.80, half * 1.05, "#74492F", 0.03)
        sheet.box(x - half, top + 0.09, x + half, 0.80, body, 0.07)
        sheet.box(x - half * 0.72, top + 0.16, x - half * 0.50, 0.70, light, 0.02)
        sheet.box(x - half * 0.66, top + 0.02, x + half * 0.66, top + 0.14, body, 0.02)
        sheet.box(x - half * 0.74, top - 0.03, x + half * 0.74, top + 0.05, lid, 0.015)
        sheet.box(x - half * 0.62, 0.46, x + half * 0.62, 0.62, "#F1E8D6", 0.01)
        for row, share in enumerate((0.42, 0.30)):
            sheet.line([(x - half * share, 0.51 + row * 0.05), (x + half * share, 0.51 + row * 0.05)], "#6A5A48", 0.009)


def long_field(sheet: Sheet) -> None:
    """Furrows running to a farm on the ridge."""
    sheet.disc(1.03, 0.22, 0.08, "#F7EBCB")
    for x, y, size in ((0.25, 0.16, 1.0), (0.42, 0.24, 0.7), (0.78, 0.12, 0.8)):
        sheet.box(x - 0.12 * size, y, x + 0.12 * size, y + 0.025, "#E4EBE6", 0.012)
    sheet.below(sheet.wave(0.45, 0.035, 1.3, 0.1), "#8FA58C")
    sheet.below(sheet.wave(0.53, 0.03, 1.0, 0.55), "#6F8D6B")
    horizon, middle = 0.56, 0.82
    sheet.below([(-0.1, horizon), (sheet.wide + 0.1, horizon - 0.02)], "#D3B55F")
    for number in range(-16, 17):
        near, far = middle + number * 0.16, middle + number * 0.022
        shade = "#B9963F" if number % 2 else "#C6A64C"
        sheet.area([(far - 0.006, horizon), (far + 0.006, horizon), (near + 0.075, 1.05), (near - 0.005, 1.05)], shade)
    sheet.below([(-0.1, 0.90), (0.3, 0.97), (0.6, 1.02), (0.7, 1.1)], "#5C7350")
    sheet.box(0.95, 0.47, 1.09, 0.565, "#F2E9DA")
    sheet.area([(0.93, 0.475), (1.02, 0.41), (1.11, 0.475)], "#A5492F")
    sheet.box(1.005, 0.515, 1.035, 0.565, "#5A4636")
    for x, size in ((0.86, 1.0), (1.16, 0.8), (0.90, 0.6)):
        sheet.box(x - 0.006, 0.50, x + 0.006, 0.57, "#5A4636")
        sheet.disc(x, 0.47, 0.04 * size, "#3F5A41", 0.06 * size)


def ferry_timetable(sheet: Sheet) -> None:
    """A ferry crossing, with a printed timetable's rules above it."""
    sheet.box(0, 0, sheet.wide, 0.27, "#23455A")
    for row in range(3):
        level = 0.07 + row * 0.065
        sheet.box(0.10, level, 0.50 - 0.07 * row, level + 0.028, "#EFE3C8")
        for column in range(6):
            left = 0.80 + column * 0.21
            sheet.box(
                left,
                level,
                left + (0.13 if (row + column) % 3 else 0.09),
                level + 0.028,
                "#E3A857" if row == 0 else "#C9D3CF",
            )
    sheet.box(0, 0.27, sheet.wide, 0.70, "#CBD8D3")
    sheet.below([(-0.1, 0.62), (0.3, 0.56), (0.7, 0.60), (1.2, 0.54), (1.7, 0.60), (2.3, 0.57)], "#9DB2AC")
    sheet.below(sheet.wave(0.70, 0.012, 0.30), "#3F7181")
    hull = [(0.62, 0.62), (1.64, 0.62), (1.54, 0.75), (0.72, 0.75)]
    sheet.area(hull, "#B4472F")
    sheet.area([(0.64, 0.645), (1.62, 0.645), (1.60, 0.67), (0.66, 0.67)], "#F2E9DA")
    sheet.box(0.80, 0.52, 1.44, 0.62, "#F2E9DA", 0.01)
    sheet.box(0.92, 0.44, 1.22, 0.52, "#F2E9DA", 0.01)
    sheet.box(1.02, 0.33, 1.11, 0.44, "#E3A857")
    sheet.box(1.02, 0.33, 1.11, 0.365, "#23455A")
    for number in range(8):
        sheet.disc(0.86 + number * 0.075, 0.57, 0.018, "#23455A")
    for x, y, size in ((1.00, 0.29, 0.05), (0.92, 0.30, 0.035)):
        sheet.disc(x, y, size, "#DFE6E2")
    for row, (level, start) in enumerate(((0.80, 0.0), (0.88, 0.4), (0.96, 0.8))):
        sheet.line(sheet.wave(level, 0.014, 0.26, start), ("#6B98A3", "#5A8995", "#4A7885")[row], 0.012)


def moth(sheet: Sheet) -> None:
    """A moth, as in an old plate."""
    x, y = sheet.wide / 2, 0.50
    for side in (-1, 1):

        def at(across: float, down: float, side: int = side) -> Point:
            return (x + side * across, y + down)

        sheet.area([at(0.02, -0.02), at(0.20, 0.02), at(0.27, 0.14), at(0.20, 0.25), at(0.06, 0.16)], "#A9744A")
        sheet.area([at(0.02, 0.02), at(0.16, 0.05), at(0.21, 0.14), at(0.16, 0.20), at(0.06, 0.13)], "#C99A6A")
        sheet.area(
            [at(0.02, -0.11), at(0.20, -0.27), at(0.36, -0.26), at(0.34, -0.08), at(0.22, 0.05), at(0.02, 0.03)],
            "#6B4A35",
        )
        sheet.area(
            [at(0.04, -0.09), at(0.20, -0.23), at(0.31, -0.22), at(0.29, -0.09), at(0.20, 0.01), at(0.03, 0.0)],
            "#8A6345",
        )
        for part in (0.32, 0.55, 0.78):
            sheet.line([at(0.03, -0.06), at(0.33 * part + 0.08, -0.24 + 0.17 * part)], "#6B4A35", 0.005)
        sheet.disc(*at(0.205, -0.125), 0.048, "#3D2B20")
        sheet.disc(*at(0.205, -0.125), 0.032, "#D9B078")
        sheet.disc(*at(0.205, -0.125), 0.015, "#3D2B20")
        sheet.disc(*at(0.145, 0.125), 0.026, "#3D2B20")
        sheet.disc(*at(0.145, 0.125), 0.014, "#E7CB9E")
        sheet.line([at(0.012, -0.15), at(0.05, -0.22), at(0.10, -0.25)], "#3D2B20", 0.007)
    sheet.disc(x, y + 0.05, 0.030, "#4A3426", 0.15)
    sheet.disc(x, y - 0.09, 0.042, "#5B4130", 0.06)
    sheet.disc(x, y - 0.15, 0.026, "#3D2B20")
    for level in (0.04, 0.08, 0.12):
        sheet.line([(x - 0.022, y + level), (x + 0.022, y + level)], "#8A6345", 0.006)
    sheet.line([(x - 0.16, 0.90), (x + 0.16, 0.90)], "#8B7A5E", 0.005)
    sheet.line([(x - 0.10, 0.93), (x + 0.10, 0.93)], "#8B7A5E", 0.004)


def stairwell(sheet: Sheet) -> None:
    """Winding steps seen from above."""
    x, y = sheet.wide * 0.54, 0.56
    tones = ("#2F4858", "#3F6072", "#557C8D", "#7599A6", "#9DB8BF", "#C8D6D6")
    for turn, outer in enumerate((0.72, 0.55, 0.41, 0.29, 0.19, 0.115)):
        for step in range(22):
            first = math.tau * (step / 22 + turn * 0.035)
            last = math.tau * ((step + 1) / 22 + turn * 0.035)
            reach = outer * (1 - 0.012 * step)
            edge = [
                (
                    x + reach * math.cos(first + (last - first) * k / 6),
                    y + reach * math.sin(first + (last - first) * k / 6),
                )
                for k in range(7)
            ]
            sheet.area([(x, y), *edge], tones[turn] if step % 2 else tones[min(5, turn + 1)])
        rim = [
            (
                x + outer * (1 - 0.012 * k / 4) * math.cos(math.tau * (k / 88 + turn * 0.035)),
                y + outer * (1 - 0.012 * k / 4) * math.sin(math.tau * (k / 88 + turn * 0.035)),
            )
            for k in range(89)
        ]
        sheet.line(rim, "#E7D9C0", 0.010)
    sheet.disc(x, y, 0.062, "#E3A857")
    sheet.disc(x, y, 0.040, "#F4E4BF")


def postcards(sheet: Sheet) -> None:
    """Six old cards laid out in two rows."""
    skies = ("#C9DAD8", "#E8CBA4", "#B9C9D9", "#E2D5B8", "#D7B7A3", "#C5CFB4")
    hills = ("#5F7F72", "#9B5C3E", "#4C6684", "#7C8A54", "#6A4B55", "#8C7A3E")
    wide, high = (sheet.wide - 0.20) / 3, 0.40
    for number in range(6):
        column, row = number % 3, number // 3
        left, top = 0.06 + column * (wide + 0.04), 0.07 + row * (high + 0.06)
        sheet.box(left, top, left + wide, top + high, "#FBF6EA")
        inner = (left + 0.018, top + 0.018, left + wide - 0.018, top + high - 0.018)
        sheet.box(*inner, skies[number])
        middle, foot = (inner[0] + inner[2]) / 2, inner[3]
        sheet.area(
            [
                (inner[0], foot),
                (inner[0], foot - 0.11),
                (middle - 0.04, foot - 0.19),
                (middle + 0.05, foot - 0.10),
                (inner[2], foot - 0.16),
                (inner[2], foot),
            ],
            hills[number],
        )
        sheet.disc(inner[2] - 0.08, inner[1] + 0.08, 0.034, "#FBF6EA" if number % 2 else "#D9803F")
        if number in {0, 4}:
            sheet.box(inner[0], foot - 0.06, inner[2], foot, "#3F7181")
        if number in {2, 5}:
            sheet.box(middle - 0.02, foot - 0.26, middle + 0.02, foot - 0.12, "#FBF6EA")
            sheet.area([(middle - 0.03, foot - 0.26), (middle, foot - 0.30), (middle + 0.03, foot - 0.26)], "#A5492F")


def mill_in_snow(sheet: Sheet) -> None:
    """A wind mill on a white hill."""
    sheet.box(0, 0, sheet.wide, 0.45, "#AEBFCB")
    sheet.below(sheet.wave(0.60, 0.05, 1.5, 0.1), "#D5DEE2")
    sheet.below(sheet.wave(0.74, 0.05, 1.9, 0.55), "#F3F4F1")
    x, y = 0.78, 0.36
    sheet.area([(x - 0.085, y + 0.02), (x + 0.085, y + 0.02), (x + 0.13, 0.73), (x - 0.13, 0.73)], "#6A4B3C")
    sheet.area([(x - 0.10, y + 0.02), (x, y - 0.10), (x + 0.10, y + 0.02)], "#3F2E26")
    sheet.box(x - 0.025, 0.62, x + 0.025, 0.73, "#2E221C")
    for quarter in range(4):
        turn = math.radians(28 + 90 * quarter)
        along, across = (math.cos(turn), math.sin(turn)), (-math.sin(turn), math.cos(turn))

        def at(out: float, side: float, along: Point = along, across: Point = across) -> Point:
            return (x + along[0] * out + across[0] * side, y + along[1] * out + across[1] * side)

        sheet.line([(x, y), at(0.34, 0)], "#3F2E26", 0.012)
        sheet.area([at(0.08, 0.012), at(0.33, 0.012), at(0.33, 0.075), at(0.08, 0.075)], "#EFE8DA")
        for part in range(6):
            out = 0.08 + part * 0.05
            sheet.line([at(out, 0.012), at(out, 0.075)], "#8D7A68", 0.004)
    flakes = random.Random(12)
    for _ in range(150):
        sheet.disc(flakes.uniform(0, sheet.wide), flakes.uniform(0, 1), flakes.uniform(0.003, 0.009), "#FFFFFF")
    for left, size in ((0.18, 1.0), (0.30, 0.7), (1.12, 0.8)):
        for tier in range(3):
            top, half = 0.52 + tier * 0.06 * size, (0.04 + tier * 0.018) * size
            sheet.area([(left - half, top + 0.10 * size), (left, top), (left + half, top + 0.10 * size)], "#4B6459")


def map_of_the_valley(sheet: Sheet) -> None:
    """Contours, a river and a road; no real valley."""
    for number in range(9, 0, -1):
        grow = number * 0.052
        ring = []
        for step in range(120):
            turn = math.tau * step / 120
            reach = grow * (1 + 0.18 * math.sin(3 * turn + 0.6) + 0.10 * math.cos(5 * turn - number * 0.25))
            ring.append((0.52 + reach * 1.05 * math.cos(turn), 0.36 + reach * 1.15 * math.sin(turn)))
        sheet.area(
            ring,
            ("#B9A77C", "#C2B187", "#CBBB93", "#D3C59F", "#DACFAD", "#E0D7B9", "#E6DEC5", "#EAE4CF", "#EEE9D8")[
                number - 1
            ],
        )
        sheet.line([*ring, ring[0]], "#A98F5E", 0.0035)
    river = [(-0.05 + 0.9 * k / 60, 0.86 - 0.22 * k / 60 + 0.05 * math.sin(k / 5)) for k in range(61)]
    sheet.line(river, "#7FA3AE", 0.026)
    sheet.line([(0.10, -0.05), (0.16, 0.22), (0.13, 0.48), (0.30, 0.70), (0.28, 1.05)], "#B4533A", 0.009)
    for x, y in ((0.15, 0.30), (0.24, 0.63), (0.29, 0.82), (0.60, 0.83)):
        for dx, dy in ((0, 0), (0.028, 0.008), (0.010, 0.030)):
            sheet.box(x + dx, y + dy, x + dx + 0.018, y + dy + 0.016, "#4A3426")
    sheet.box(0.035, 0.93, 0.335, 0.945, "#4A3426")
    sheet.box(0.135, 0.932, 0.235, 0.943, "#F3EBD8")


def lighthouse(sheet: Sheet) -> None:
    """A lighthouse on its rock."""
    sheet.box(0, 0, sheet.wide, 0.70, "#C8D9DA")
    x = sheet.wide * 0.52
    sheet.area([(x, 0.215), (-0.05, 0.10), (-0.05, 0.28)], "#E6E4C8")
    sheet.below(sheet.wave(0.72, 0.010, 0.28), "#3F7181")
    sheet.area([(x - 0.28, 0.80), (x - 0.17, 0.69), (x - 0.02, 0.66), (x + 0.16, 0.70), (x + 0.29, 0.82)], "#5B534B")
    for band in range(5):
        top, foot = 0.27 + band * 0.082, 0.27 + (band + 1) * 0.082
        upper, lower = 0.055 + band * 0.009, 0.055 + (band + 1) * 0.009
        sheet.area(
            [(x - upper, top), (x + upper, top), (x + lower, foot), (x - lower, foot)],
            "#B4402C" if band % 2 == 0 else "#F4EFE3",
        )
    sheet.box(x - 0.075, 0.255, x + 0.075, 0.272, "#33302D")
    sheet.box(x - 0.042, 0.185, x + 0.042, 0.255, "#F5DC8B")
    sheet.area([(x - 0.055, 0.19), (x, 0.13), (x + 0.055, 0.19)], "#33302D")
    for level, start in ((0.84, 0.2), (0.91, 0.6), (0.97, 0.0)):
        sheet.line(sheet.wave(level, 0.012, 0.24, start), "#6B98A3", 0.010)


def bridge_works(sheet: Sheet) -> None:
    """Two spans of an iron bridge, the third still to come."""
    sheet.below([(-0.1, 0.55), (0.25, 0.45), (0.6, 0.52), (1.0, 0.44), (1.5, 0.53)], "#B9A98F")
    sheet.below(sheet.wave(0.80, 0.010, 0.35), "#58797D")
    sheet.box(0, 0.46, 1.02, 0.50, "#4A3A31")
    for start in (0.0, 0.44):
        arch = [(start + 0.44 * k / 40, 0.50 - 0.26 * math.sin(math.pi * k / 40)) for k in range(41)]
        sheet.line(arch, "#7D3A28", 0.022)
        for k in range(4, 40, 4):
            sheet.line([arch[k], (arch[k][0], 0.48)], "#7D3A28", 0.008)
    for x in (0.0, 0.44, 0.88):
        sheet.box(x - 0.035, 0.50, x + 0.035, 0.88, "#8D8071")
        sheet.box(x - 0.050, 0.49, x + 0.050, 0.53, "#6F6457")
    sheet.line([(1.10, 0.86), (1.10, 0.14), (0.88, 0.24)], "#33302D", 0.014)
    sheet.line([(1.10, 0.14), (1.24, 0.26)], "#33302D", 0.010)
    sheet.line([(0.92, 0.225), (0.92, 0.40)], "#33302D", 0.005)
    sheet.box(0.88, 0.40, 0.97, 0.44, "#7D3A28")


def barn(sheet: Sheet) -> None:
    """A red barn under a wide sky."""
    sheet.disc(0.66, 0.22, 0.07, "#F4E2B8")
    sheet.below(sheet.wave(0.66, 0.02, 1.1), "#8C9A5B")
    sheet.below([(-0.1, 0.80), (0.4, 0.76), (0.95, 0.84)], "#6F7F45")
    sheet.area(
        [(0.16, 0.52), (0.22, 0.40), (0.37, 0.32), (0.52, 0.40), (0.58, 0.52), (0.58, 0.78), (0.16, 0.78)], "#9C3B2A"
    )
    sheet.line([(0.14, 0.53), (0.21, 0.39), (0.37, 0.305), (0.53, 0.39), (0.60, 0.53)], "#4A3A35", 0.024)
    sheet.box(0.30, 0.58, 0.44, 0.78, "#F0E6D4")
    sheet.line([(0.30, 0.58), (0.44, 0.78)], "#9C3B2A", 0.010)
    sheet.line([(0.44, 0.58), (0.30, 0.78)], "#9C3B2A", 0.010)
    sheet.box(0.34, 0.42, 0.40, 0.49, "#F0E6D4")
    sheet.box(0.64, 0.44, 0.74, 0.78, "#C9C2B4", 0.02)
    sheet.disc(0.69, 0.445, 0.05, "#A9A294", 0.045)


def orchard(sheet: Sheet) -> None:
    """Apple trees in rows."""
    sheet.below(sheet.wave(0.36, 0.02, 0.9), "#A9B877")
    fruit = random.Random(5)
    for row, (level, size, step) in enumerate(((0.40, 0.55, 0.16), (0.58, 0.80, 0.23), (0.82, 1.15, 0.33))):
        for number in range(-1, 6):
            x, y = number * step + (step / 2 if row % 2 else 0.03), level
            sheet.disc(x, y + 0.085 * size, 0.11 * size, "#93A360", 0.018 * size)
            sheet.box(x - 0.011 * size, y - 0.03, x + 0.011 * size, y + 0.085 * size, "#5A4636")
            sheet.disc(x, y - 0.07 * size, 0.105 * size, ("#6E8C52", "#5D7C47", "#4C6B3B")[row], 0.10 * size)
            for _ in range(9):
                turn, out = fruit.uniform(0, math.tau), fruit.uniform(0, 0.08)
                sheet.disc(
                    x + out * size * math.cos(turn),
                    y + (-0.07 + 0.9 * out * math.sin(turn)) * size,
                    0.012 * size,
                    "#C2452D",
                )


def railway_panorama(sheet: Sheet) -> None:
    """A train along the lake, very wide."""
    sheet.below(
        [(-0.1, 0.42), (0.4, 0.20), (0.8, 0.36), (1.3, 0.14), (1.8, 0.34), (2.4, 0.18), (3.0, 0.36), (3.4, 0.26)],
        "#8FA0A6",
    )
    sheet.below([(-0.1, 0.50), (0.6, 0.40), (1.4, 0.48), (2.2, 0.38), (3.4, 0.48)], "#6E8778")
    sheet.box(0, 0.52, sheet.wide, 0.64, "#8FB2B5")
    sheet.below([(-0.1, 0.64), (3.5, 0.62)], "#B59B6B")
    sheet.box(0, 0.735, sheet.wide, 0.752, "#4A3A31")
    for number in range(64):
        sheet.box(number * 0.055, 0.752, number * 0.055 + 0.022, 0.775, "#6A5546")
    for number, colour in enumerate(("#7D2F25", "#7D2F25", "#7D2F25", "#7D2F25")):
        left = 0.55 + number * 0.43
        sheet.box(left, 0.56, left + 0.40, 0.705, colour, 0.02)
        sheet.box(left, 0.56, left + 0.40, 0.585, "#3A2A25", 0.01)
        for window in range(6):
            sheet.box(left + 0.03 + window * 0.06, 0.605, left + 0.072 + window * 0.06, 0.655, "#F2DFA9")
        for wheel in (0.08, 0.32):
            sheet.disc(left + wheel, 0.712, 0.026, "#2B2522")
    sheet.box(2.27, 0.60, 2.74, 0.695, "#2F3B34", 0.03)
    sheet.box(2.27, 0.52, 2.43, 0.70, "#2F3B34", 0.01)
    sheet.box(2.31, 0.55, 2.39, 0.61, "#F2DFA9")
    sheet.box(2.62, 0.53, 2.67, 0.61, "#2F3B34")
    for x, size in ((2.34, 0.04), (2.48, 0.042), (2.60, 0.042), (2.70, 0.03)):
        sheet.disc(x, 0.735 - size, size, "#2B2522")
        sheet.disc(x, 0.735 - size, size * 0.45, "#A5492F")
    for x, y, size in ((2.60, 0.46, 0.045), (2.50, 0.41, 0.06), (2.36, 0.37, 0.075)):
        sheet.disc(x, y, size, "#E7E6DF")


def seed_packet(sheet: Sheet) -> None:
    """A packet of poppy seed."""
    sheet.box(0.13, 0.09, sheet.wide - 0.13, 0.91, "#E9DDBE", 0.01)
    sheet.box(0.13, 0.09, sheet.wide - 0.13, 0.235, "#55715B", 0.01)
    middle = sheet.wide / 2
    sheet.box(middle - 0.17, 0.135, middle + 0.17, 0.165, "#F3EBD8")
    sheet.box(middle - 0.11, 0.185, middle + 0.11, 0.203, "#C9D3B4")
    for x, y, size, lean in (
        (middle - 0.13, 0.42, 0.9, -0.02),
        (middle + 0.05, 0.36, 1.1, 0.01),
        (middle + 0.17, 0.50, 0.75, 0.05),
    ):
        sheet.line([(x, y + 0.04), (x + lean, y + 0.22), (middle + lean, 0.85)], "#55715B", 0.012)
        for turn in (20, 110, 160, 200, 250, 340):
            angle = math.radians(turn)
            sheet.disc(
                x + 0.042 * size * math.cos(angle),
                y + 0.030 * size * math.sin(angle),
                0.050 * size,
                "#B93E2B" if turn % 20 else "#CE5A3E",
                0.044 * size,
            )
        sheet.disc(x, y, 0.024 * size, "#2F2A25")
    for side in (-1, 1):
        sheet.area(
            [(middle, 0.80), (middle + side * 0.14, 0.70), (middle + side * 0.17, 0.74), (middle + side * 0.05, 0.84)],
            "#728D5E",
        )


PICTURES: dict[str, tuple[float, str, Callable[[Sheet], None]]] = {
    "low-tide": (0.79, "#E9C9A1", low_tide),
    "three-jars": (1.73, "#DCC9A9", three_jars),
    "the-long-field": (1.37, "#CFE0DF", long_field),
    "ferry-timetable": (2.10, "#CBD8D3", ferry_timetable),
    "moth": (0.92, "#EFE5CF", moth),
    "stairwell": (0.675, "#22323C", stairwell),
    "postcards": (1.39, "#8A6F55", postcards),
    "the-mill-in-snow": (1.30, "#BCCAD3", mill_in_snow),
    "map-of-the-valley": (0.77, "#F3EBD8", map_of_the_valley),
    "lighthouse": (0.75, "#C8D9DA", lighthouse),
    "bridge-works": (1.33, "#DDD2BC", bridge_works),
    "barn": (0.83, "#C7D6D3", barn),
    "orchard": (0.78, "#D9E2DB", orchard),
    "railway-panorama": (3.17, "#D7DED8", railway_panorama),
    "seed-packet": (0.83, "#C9B48C", seed_packet),
}
"""Width for a height of 1, ground, and what is drawn."""


def make(folder: Path) -> list[Path]:
    """Writes every picture and returns their paths."""
    folder.mkdir(parents=True, exist_ok=True)
    made = []
    for name, (wide, ground, paint) in PICTURES.items():
        sheet = Sheet(wide, ground)
        paint(sheet)
        made.append(folder / f"{name}.jpg")
        sheet.finished().save(made[-1], quality=88, subsampling=0, optimize=True)
    return made


if __name__ == "__main__":
    for path in make(Path(sys.argv[1]) if len(sys.argv) > 1 else ROOT / "samples" / "pictures"):
        print(path.name)
