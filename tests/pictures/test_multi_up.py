"""Shared sheets: each print whole and in its size, marks only where a cut comes out."""

import io
from collections.abc import Mapping
from decimal import Decimal
from pathlib import Path

import numpy as np
import pytest
from numpy.typing import NDArray
from PIL import Image

from composer.model import Arrangement, Frame, MoneyNotes, Picture, PictureUse, Piece, Price, Project, Wall
from composer.pictures.multi_up import multi_up
from composer.pictures.print_job import print_jobs
from composer.pictures.probing import with_facts
from composer.pictures.whereabouts import whereabouts
from composer.units import Length

INCH = 25.4
COLOURS = {1: (200, 30, 30), 2: (30, 160, 30), 3: (30, 30, 200), 4: (200, 160, 0)}


def inch(value: float) -> Length:
    return Length.from_text(f"{value} in")


def project_in(folder: Path, glasses: Mapping[int, tuple[float, float]], prices: dict[str, str]) -> Project:
    pictures, pieces = [], []
    for number, (width, height) in glasses.items():
        Image.new("RGB", (900, 900), COLOURS[number]).save(folder / f"{number}.png")
        pictures.append(with_facts(Picture(key=f"i{number}", path=f"{number}.png"), folder / f"{number}.png"))
        frame = Frame(
            width=inch(width + 2), height=inch(height + 2), glass_width=inch(width), glass_height=inch(height)
        )
        use = PictureUse(picture=f"i{number}")
        pieces.append(
            Piece(key=f"p{10 + number}", number=number, name=f"n{number}", frame=frame, uses=(use,), current_use=0)
        )
    return Project(
        title="small",
        units="imperial",
        next_key=100,
        next_number=10,
        walls=(Wall(key="w50", name="wall", width=inch(100), height=inch(90)),),
        pieces=tuple(pieces),
        pictures=tuple(pictures),
        arrangements=(Arrangement(key="h51", name="first", gap=inch(2)),),
        current_arrangement="h51",
        money=MoneyNotes(prices=tuple(Price(item=item, each=Decimal(each)) for item, each in prices.items())),
    )


def sheets_of(project: Project, folder: Path) -> list[tuple[str, NDArray[np.int64]]]:
    found = {picture.key: whereabouts(picture, folder) for picture in project.pictures}
    jobs, _ = print_jobs(project, project.arrangement, found)
    made = []
    for sheet in multi_up(project, jobs, "png"):
        with Image.open(io.BytesIO(sheet.made())) as image:
            made.append((sheet.name, np.asarray(image.convert("RGB")).astype(np.int64)))
    return made


GLASSES: Mapping[int, tuple[float, float]] = {1: (3, 4), 2: (3, 4), 3: (5, 3), 4: (3, 3)}


def test_four_small_prints_on_one_sheet(tmp_path: Path) -> None:
    prices = {"3.5x5in": "1.00", "4x6in": "1.00", "8x10in": "1.50"}
    ((name, pixels),) = sheets_of(project_in(tmp_path, GLASSES, prices), tmp_path)
    assert name == "01_8x10in_1-2-3-4.png"
    assert pixels.shape == (2400, 3000, 3)
    boxes = {}
    for number, (width, height) in GLASSES.items():
        mask = np.abs(pixels - COLOURS[number]).max(axis=2) < 12
        rows, columns = np.flatnonzero(mask.any(axis=1)), np.flatnonzero(mask.any(axis=0))
        size = (columns[-1] + 1 - columns[0], rows[-1] + 1 - rows[0])
        # Whole, in its size at 300 ppi, and perhaps turned.
        assert mask.sum() == size[0] * size[1]
        assert sorted(size) == pytest.approx(sorted((width * 300, height * 300)), abs=1)
        boxes[number] = (columns[0], rows[0], columns[-1] + 1, rows[-1] + 1)
    # 12 mm = 142 pixels of white left and above, 20 mm = 236 right and below.
    assert min(box[0] for box in boxes.values()) == pytest.approx(142, abs=1)
    assert min(box[1] for box in boxes.values()) >= 141
    assert max(box[2] for box in boxes.values()) <= 3000 - 235
    ink = pixels.max(axis=2) < 60
    # Marks above the prints stand only over edges that run through to there.
    above = np.flatnonzero(ink[80:130].any(axis=0))
    upper = min(box[1] for box in boxes.values())
    edges = {x for box in boxes.values() if box[1] == upper for x in (box[0], box[2])}
    for x in above:
        assert min(abs(x - edge) for edge in edges) <= 2
    # The bar below: 50 mm = 590.55 pixels.
    row = ink[2400 - round(9 / INCH * 300)]
    edges_of_runs = np.flatnonzero(np.diff(np.concatenate(([0], row.astype(int), [0]))))
    longest = max(end - start for start, end in zip(edges_of_runs[::2], edges_of_runs[1::2], strict=True))
    assert longest == pytest.approx(590.55, abs=1)


def test_a_print_that_would_be_alone_is_ordered_by_itself(tmp_path: Path) -> None:
    # 8 × 10 has 6.74 × 8.74 in of room: 6 × 4 and 6 × 4.5 share it, 6 × 8 would have another for 1.50, by itself 1.00.
    prices = {"4x6in": "1.00", "5x7in": "1.00", "6x8in": "1.00", "8x10in": "1.50"}
    project = project_in(tmp_path, {1: (6, 4), 2: (6, 4.5), 4: (6, 8)}, prices)
    assert [name for name, _ in sheets_of(project, tmp_path)] == ["01_8x10in_1-2.png"]


def test_nothing_is_shared_where_it_costs_more(tmp_path: Path) -> None:
    prices = {"3.5x5in": "0.10", "4x6in": "0.10", "8x10in": "1.50"}
    assert sheets_of(project_in(tmp_path, GLASSES, prices), tmp_path) == []
