"""The cutting list obeyed by somebody who has nothing but the printed page."""

import re
from fractions import Fraction
from typing import NamedTuple

import pytest

from composer.geometry.rectangle import Rectangle
from composer.paper.kinds import PaperOptions, build
from composer.paper.primitives import THICK_PT, Box, Circle, Page, Text
from composer.paper.sheets import Margins, sheet_named
from tests.paper.print_projects import framed, project_of

INCH = 25.4

# Two of 8 × 10, two of 11 × 14, one 16 × 20, one 12 × 12 inches: 932 of the 1 280 square inches of a 32 × 40 board.
MIXED = {"1": (8, 10), "2": (8, 10), "3": (11, 14), "4": (11, 14), "5": (16, 20), "6": (12, 12)}


class Row(NamedTuple):
    """One line of the list, as read."""

    ring: int
    edge: str
    mark: Fraction
    check: Fraction
    gives: str


def inches(words: str) -> Fraction:
    return sum((Fraction(part) for part in words.replace("\u00a0", " ").split()), Fraction(0))


def texts(page: Page) -> list[Text]:
    return [item for item in page.items if isinstance(item, Text)]


def listed(page: Page, right_of: float) -> list[Row]:
    """The list of cuts: each row is what stands on the height of a ring right of the boards."""
    rows = []
    for ring in (item for item in page.items if isinstance(item, Circle) and item.x > right_of):
        line = sorted((t for t in texts(page) if abs(t.y - ring.y) < 2.6 and t.x >= ring.x - 0.1), key=lambda t: t.x)
        number = next(t.text for t in line if abs(t.x - ring.x) < 0.1)
        words = [t.text.replace("\u00a0", " ") for t in line]
        edge = next(word for word in words if word in ("left", "bottom"))
        far = next(m for word in words if (m := re.fullmatch(r"(?:right|top) ([\d /]+)", word)))
        mark = next(t.text for t in line if t.size_pt > 10.5 and t.text != number)
        gives = " ".join(m[1] for word in words if (m := re.fullmatch(r"mat ([\w, ]+)", word)))
        rows.append(Row(int(number), edge, inches(mark), inches(far[1]), gives))
    return rows


def test_the_mixed_set_is_cut_from_one_board_by_reading_the_page() -> None:
    # Windows two inches wide, so that none gives a mat: the six must come from the board.
    pieces = [
        framed(int(label), f"mat {label}", (w * INCH, h * INCH), (min(w, h) / 2 - 1) * INCH)
        for label, (w, h) in MIXED.items()
    ]
    project = project_of(pieces, "imperial")
    options = PaperOptions(sheet_named("a4"), Margins(10.0, 10.0, 10.0, 10.0))
    page = build(project, "mats", options).document.pages[0]
    outlines = [item for item in page.items if isinstance(item, Box) and item.width_pt == THICK_PT]
    assert len(outlines) == 1
    board = outlines[0]
    (scale,) = {float(m[1]) for t in texts(page) if (m := re.search(r"drawn 1 : ([\d.]+)", t.text))}
    assert (board.width * scale / INCH, board.height * scale / INCH) == pytest.approx((40, 32))

    def on_board(x: float, y: float) -> tuple[float, float]:
        return (x - board.left) * scale / INCH, (y - board.bottom) * scale / INCH

    inside = [
        item
        for item in page.items
        if isinstance(item, Circle) and board.left < item.x < board.left + board.width and item.y > board.bottom
    ]
    rings = {
        int(next(t.text for t in texts(page) if abs(t.x - ring.x) < 0.1 and abs(t.y - ring.y) < 1.5)): on_board(
            ring.x, ring.y
        )
        for ring in inside
    }
    on_the_board = sorted(listed(page, board.left + board.width), key=lambda row: row.ring)
    assert [row.ring for row in on_the_board] == sorted(rings)
    parts = [Rectangle(0, 0, 40, 32)]
    for row in on_the_board:
        x, y = rings[row.ring]
        # The part in hand is the one whose cut runs under the ring and whose two measures make it whole.
        found = []
        for part in parts:
            whole = part.width if row.edge == "left" else part.height
            at = part.left + float(row.mark) if row.edge == "left" else part.bottom + float(row.mark)
            off = x - at if row.edge == "left" else y - at
            if part.grown(0.01).holds(x, y) and abs(off) < 0.01 and abs(float(row.mark + row.check) - whole) < 0.01:
                found.append((part, at))
        assert len(found) == 1, row
        part, at = found[0]
        parts.remove(part)
        if row.edge == "left":
            parts += [part._replace(right=at), part._replace(left=at)]
        else:
            parts += [part._replace(top=at), part._replace(bottom=at)]
    assert not any(a.meets(b) for index, a in enumerate(parts) for b in parts[:index])
    assert sum(part.width * part.height for part in parts) == pytest.approx(1280)
    mats = 0.0
    for width, height in MIXED.values():
        part = next(p for p in parts if sorted((p.width, p.height)) == pytest.approx(sorted((width, height)), abs=0.01))
        parts.remove(part)
        mats += part.width * part.height
    assert mats == pytest.approx(932, abs=0.1)
    named = ", ".join(row.gives for row in on_the_board if row.gives).split(", ")
    assert sorted(named) == sorted(MIXED)
