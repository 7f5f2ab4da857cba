"""Full-size pages that are drawn when they are asked for, with an index that is known before."""

from bisect import bisect_right
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate
from typing import overload

from composer.paper.full_size_paper import FullSizePaper
from composer.paper.page_index import IndexEntry, PageIndex
from composer.paper.primitives import Page


@dataclass(frozen=True, slots=True)
class PageRun:
    """Pages that are drawn together, as one of them may carry what had no room on another.

    Attributes:
        entries: what the index says of each page, as if each were page 1; empty for a map.
        draw: makes all of them, as many as there are entries.
    """

    entries: tuple[tuple[IndexEntry, ...], ...]
    draw: Callable[[], Sequence[Page]]


class RunPages(Sequence[Page]):
    """The pages of many runs one after the other; only the run last asked for is kept."""

    def __init__(self, runs: Sequence[PageRun]) -> None:
        self._runs = [run for run in runs if run.entries]
        self._ends = list(accumulate(len(run.entries) for run in self._runs))
        self._drawn: tuple[int, Sequence[Page]] | None = None

    def __len__(self) -> int:
        return self._ends[-1] if self._ends else 0

    @overload
    def __getitem__(self, index: int) -> Page: ...
    @overload
    def __getitem__(self, index: slice) -> Sequence[Page]: ...
    def __getitem__(self, index: int | slice) -> Page | Sequence[Page]:
        if isinstance(index, slice):
            return [self[number] for number in range(*index.indices(len(self)))]
        if not -len(self) <= index < len(self):
            raise IndexError(index)
        index %= len(self)
        number = bisect_right(self._ends, index)
        if self._drawn is None or self._drawn[0] != number:
            self._drawn = number, self._runs[number].draw()
        pages = self._drawn[1]
        return pages[index - (self._ends[number] - len(self._runs[number].entries))]


def collect(runs: Sequence[PageRun], paper: FullSizePaper) -> tuple[Sequence[Page], PageIndex]:
    """Pages and their index, its entries numbered as the pages stand in the file."""
    of_pages = [of_page for run in runs for of_page in run.entries]
    entries = tuple(replace(entry, page=number) for number, of_page in enumerate(of_pages, 1) for entry in of_page)
    sheet = (paper.sheet.width_mm, paper.sheet.height_mm)
    return RunPages(runs), PageIndex(sheet, paper.scale, entries)
