"""The mats' cutting list: boards with their cuts in order, then the windows, all seen from the back."""

from collections.abc import Collection, Sequence

from composer.catalogue import catalogue as catalogues
from composer.costing.need import HAS_ITS_MAT
from composer.model import Arrangement, Project
from composer.paper.drawing import Area, Drawing, line_step
from composer.paper.figures import figures_of
from composer.paper.furniture import sheet_head
from composer.paper.mat_boards import (
    BOARD_HEAD_MM,
    BOARD_NAME_MM,
    CUT_ROW_MM,
    board_name,
    draw_board,
    draw_cut_row,
    draw_list_head,
    list_height,
)
from composer.paper.mat_windows import Column, band_height, bands_of, columns_of, draw_band
from composer.paper.primitives import THICK_PT, Page
from composer.paper.sheet_request import SheetRequest
from composer.prints.cutting_list import Board, CuttingList, cutting_list
from composer.prints.guillotine import CutLine
from composer.texts import say, say_many

_LEAST = (255.0, 170.0)
_LIST_MM, _GAP_MM = 61.0, 6.0
_SECTION_MM = 8.0
_ADVICE_MM = 14.0
_SCALES = (10.0, 12.5, 15.0, 20.0, 25.0, 30.0)


def build(
    project: Project, arrangement: Arrangement, request: SheetRequest, only: Collection[int] | None = None
) -> list[Page]:
    """The sheets, lying; none where no mat is to be cut.

    Raises:
        SheetTooSmall: the paper is smaller than about A4.
    """
    wanted = {
        piece.number
        for piece in project.pieces
        if piece.mat is not None and piece.stage not in HAS_ITS_MAT and (only is None or piece.number in only)
    }
    made = cutting_list(project, arrangement, wanted)
    if not made.windows:
        return []
    lying = request.turned(landscape=True)
    area = lying.expect(say("Mat cutting list"), *_LEAST)
    tried = [_Sheets(project, lying, area, made, smaller).pages() for smaller in range(4)]
    return min(tried, key=len)  # windows are drawn smaller only where that saves a page


class _Sheets:
    """The sheets in the making."""

    def __init__(self, project: Project, request: SheetRequest, area: Area, made: CuttingList, smaller: int) -> None:
        self.project, self.request, self.area, self.made = project, request, area, made
        self.figures = figures_of(project)
        self.catalogue = catalogues.of(project.catalogue)
        self.done: list[Page] = []
        self.drawing = Drawing()
        self.y = 0.0
        room = (area.width - _LIST_MM - 2 * _GAP_MM) / 2
        widest = max((board.cut.width_mm for board in made.boards), default=0.0)
        self.scale = next((scale for scale in _SCALES if widest / scale <= room + 1e-6), _SCALES[-1])
        following = [scale for scale in _SCALES if scale >= self.scale]
        self.window_scale = following[min(smaller, len(following) - 1)]

    def pages(self) -> list[Page]:
        """All of them."""
        self._start(first=True)
        if self.made.boards:
            self._boards()
        self._windows()
        self._finish()
        return self.done

    def _start(self, *, first: bool) -> None:
        note = say(
            "{unit} · drawn 1 : {scale} · all lies face down: mark and cut on the back",
            unit=self.figures.all_in,
            scale=f"{self.scale:g}",
        )
        title = say("Mat cutting list")
        below = "" if first else say("Continued.")
        self.y = sheet_head(self.drawing, self.area, title, self.project.title, note, below)

    def _finish(self) -> None:
        label = say("Mats {number}", number=len(self.done) + 1)
        self.done.append(self.drawing.page(self.request.size, label, (say("Mat cutting list"), label), self.area))
        self.drawing = Drawing()

    def _room(self, height: float) -> None:
        if self.y - height < self.area.bottom - 1e-6:
            self._finish()
            self._start(first=False)

    def _section(self, number: int, title: str, note: str) -> None:
        pen, area = self.drawing, self.area
        base = self.y - 6.2
        pen.text(area.left, base, str(number), 18, "bold")
        used = pen.text(area.left + 6, base, title, 14, "semibold", within=60)
        pen.text(area.left + 6 + used + 3, base, note, 9, within=area.width - used - 10)
        self.y -= _SECTION_MM

    # --- boards ------------------------------------------------------------------------------------

    def _boards(self) -> None:
        most = self.area.height - 32.0
        rest = list(self.made.boards)
        first = True
        while rest:
            pair = rest[:2] if len(rest) > 1 and list_height(rest[:2]) <= most else rest[:1]
            rest = rest[len(pair) :]
            drawn = max(board.cut.height_mm / self.scale for board in pair) + BOARD_HEAD_MM
            height = max(drawn, min(most, list_height(pair))) + (_SECTION_MM if first else 0.0) + 4.0
            self._room(height)
            if first:
                self._section(1, say("Cut the boards"), self._boards_note())
                first = False
            self._board_band(pair, drawn)

    def _boards_note(self) -> str:
        counts: dict[tuple[str, float], int] = {}
        for board in self.made.boards:
            size = self.figures.size(board.cut.width_mm, board.cut.height_mm)
            counts[size, board.thickness_mm] = counts.get((size, board.thickness_mm), 0) + 1
        kinds = [
            say_many(
                "one {size}, {thickness} mm thick",
                "{count} of {size}, {thickness} mm thick",
                count,
                size=size,
                thickness=f"{thickness:g}",
            )
            for (size, thickness), count in counts.items()
        ]
        return say(
            "{boards}. Each cut goes right through the part in hand, in the order of the rings.",
            boards="; ".join(kinds),
        )

    def _board_band(self, pair: Sequence[Board], drawn: float) -> None:
        top = self.y - 1.0
        x = self.area.left
        for board in pair:
            draw_board(self.drawing, x, top, board, board_name(board, self.catalogue), self.scale, self.figures)
            x += board.cut.width_mm / self.scale + _GAP_MM
        lowest = self._lists(pair, top, x, top - drawn)
        self.y = min(top - drawn, lowest) - 3.0
        self.drawing.line(self.area.left, self.y, self.area.right, self.y, THICK_PT)

    def _lists(self, pair: Sequence[Board], top: float, left: float, floor: float) -> float:
        """The cuts in as many columns as there is room for, then on further pages; returns the lowest y."""
        columns = max(1, int((self.area.right - left + _GAP_MM) / (_LIST_MM + _GAP_MM)))
        starts = [left + index * (_LIST_MM + _GAP_MM) for index in range(columns)]
        rows: list[tuple[Board, CutLine | None]] = []
        for board in pair:
            rows.append((board, None))
            rows += [(board, cut) for cut in board.cut.cuts]
        column, lowest = 0, top
        y = draw_list_head(self.drawing, starts[0], top + 2.2, _LIST_MM)
        for board, cut in rows:
            needed = BOARD_NAME_MM + CUT_ROW_MM if cut is None else CUT_ROW_MM
            if y - needed < self.area.bottom:
                column += 1
                if column == len(starts):
                    self._finish()
                    self._start(first=False)
                    starts = [self.area.left + index * (_LIST_MM + _GAP_MM) for index in range(4)]
                    starts = [start for start in starts if start + _LIST_MM <= self.area.right + 1e-6]
                    column, top = 0, self.y - 1.0
                    floor = lowest = top
                y = draw_list_head(self.drawing, starts[column], top + 2.2, _LIST_MM)
            if cut is None:
                words = say("Board {letter}", letter=board.name)
                if not board.cut.cuts:
                    words = say("Board {letter}: no cut, it is the mat", letter=board.name)
                self.drawing.text(starts[column], y - 3.9, words, 10, "bold", within=_LIST_MM)
                y -= BOARD_NAME_MM
            else:
                y = draw_cut_row(self.drawing, starts[column], y, _LIST_MM, cut, self.figures)
            lowest = min(lowest, y)
        if y - _ADVICE_MM > max(self.area.bottom, min(floor, y) - _ADVICE_MM - 1):
            lowest = min(lowest, self._advice(starts[column], y))
        return lowest

    def _advice(self, left: float, y: float) -> float:
        y -= 5.0
        for words in (
            say("Corner not square? Trim that edge first."),
            say("Mark both ends, then check from the far side."),
            say("At once: number and arrow on each mat."),
        ):
            self.drawing.text(left, y, words, 9, within=_LIST_MM)
            y -= line_step(9)
        return y

    # --- windows -----------------------------------------------------------------------------------

    def _windows(self) -> None:
        bands = bands_of(columns_of(self.made, self.window_scale, self.scale), self.area.width)
        for index, band in enumerate(bands):
            self._room(band_height(band) + (_SECTION_MM if index == 0 else 2.0))
            if index == 0:
                words = say(
                    "seen from the back. Mark all four lines from the mat’s edges. What you mark is what shows; the bevel "
                    "falls outside it."
                )
                if self.window_scale != self.scale and self.made.boards:
                    words = say("{words} Drawn 1 : {scale}.", words=words, scale=f"{self.window_scale:g}")
                self._section(2, say("Cut the windows"), words)
            self._band(band)
        self._notes()

    def _band(self, band: Sequence[Column]) -> None:
        self.y = draw_band(self.drawing, self.area.left, self.y, self.area.width, band, self.figures)
        self.y -= 1.0

    def _notes(self) -> None:
        notes: list[str] = []
        if self.made.too_large:
            notes.append(
                say_many(
                    "Mat {labels} is larger than every board: join it, or order it cut.",
                    "Mats {labels} are larger than every board: join them, or order them cut.",
                    len(self.made.too_large),
                    labels=", ".join(window.label for window in self.made.too_large),
                )
            )
        if any(window.label[-1:].isalpha() for window in self.made.windows):
            notes.append(say("a, b, c: boards of one mat, a is the top one."))
        if not notes:
            return
        self._room(line_step(9) * len(notes) + 2.0)
        y = self.y - 4.0
        for words in notes:
            y = self.drawing.paragraph(self.area.left, y, words, self.area.width, 9)
        self.y = y
