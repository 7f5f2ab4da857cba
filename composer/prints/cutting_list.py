"""The mats of a project as a cutting list: boards with their cuts, windows, and fall-outs used again.

All lies face down, so what is marked on the back is mirrored: left and right are as seen from there.
Only typed-in borders may differ left and right.
"""

from collections.abc import Collection, Sequence
from dataclasses import dataclass

from composer.model import Arrangement, Piece, Project
from composer.prints.guillotine import Blank, CutSheet, fits, pack
from composer.prints.mats import LayerPlan, MatBorders, MatPlan
from composer.prints.plan import plan
from composer.prints.stock import BoardSheet, board_sheets

SAME_MM = 1e-6


@dataclass(frozen=True, slots=True)
class Window:
    """One board of one mat, as it is marked on its back.

    Attributes:
        label: the piece's number, with a letter where the mat has several boards: ``7``, ``7a``.
        outer_mm, opening_mm: the board, and the opening to be marked: the small one.
        borders: from the board's edges to that opening, as seen from the back.
        makes: label of the mat that is cut from what falls out; empty = none.
    """

    label: str
    piece: Piece
    mat: MatPlan
    layer: LayerPlan
    outer_mm: tuple[float, float]
    opening_mm: tuple[float, float]
    borders: MatBorders
    makes: str = ""


@dataclass(frozen=True, slots=True)
class Board:
    """A sheet of board to be bought, with its cuts: ``name`` is a letter, A, B, …"""

    name: str
    board: str
    colour: str
    sheet: BoardSheet
    cut: CutSheet
    thickness_mm: float


@dataclass(frozen=True, slots=True)
class FallOut:
    """What falls out of a window, cut into smaller mats."""

    window: str
    cut: CutSheet


@dataclass(frozen=True, slots=True)
class CuttingList:
    """Everything to cut: windows by number, boards, fall-outs used again, and mats no sheet is large enough for."""

    windows: tuple[Window, ...]
    boards: tuple[Board, ...]
    fall_outs: tuple[FallOut, ...]
    too_large: tuple[Window, ...]

    def window(self, label: str) -> Window:
        """The window of that label."""
        return next(window for window in self.windows if window.label == label)

    @property
    def counts(self) -> dict[tuple[str, str, str], int]:
        """Sheets to buy by board, colour and sheet size."""
        counts: dict[tuple[str, str, str], int] = {}
        for board in self.boards:
            key = (board.board, board.colour, board.sheet.id)
            counts[key] = counts.get(key, 0) + 1
        return counts


def cutting_list(
    project: Project, arrangement: Arrangement | None = None, only: Collection[int] | None = None
) -> CuttingList:
    """The cutting list of every piece that has a mat; ``only`` = numbers of pieces."""
    windows: list[Window] = []
    for piece in sorted(project.pieces, key=lambda piece: piece.number):
        if only is None or piece.number in only:
            mat = plan(project, piece, arrangement).mat
            if mat is not None:
                windows += _windows(piece, mat)
    return cut_all(windows, board_sheets(project.catalogue))


def _windows(piece: Piece, mat: MatPlan) -> list[Window]:
    found = []
    for index, layer in enumerate(mat.layers):
        label = str(piece.number) + ("abc"[index] if len(mat.layers) > 1 else "")
        across, up = layer.opening_mm[0] - mat.window_mm[0], layer.opening_mm[1] - mat.window_mm[1]
        four = mat.borders
        mirrored = MatBorders(four.top - up / 2, four.bottom - up / 2, four.right - across / 2, four.left - across / 2)
        found.append(Window(label, piece, mat, layer, mat.outer_mm, layer.opening_mm, mirrored))
    return found


def cut_all(windows: Sequence[Window], sheets: Sequence[BoardSheet]) -> CuttingList:
    """Nests the mats on sheets, board by board, small ones into larger windows where they fit."""
    boards: list[Board] = []
    fall_outs: list[FallOut] = []
    too_large: list[Window] = []
    made: dict[str, str] = {}
    kinds = dict.fromkeys((window.layer.layer.board, window.layer.layer.colour or "") for window in windows)
    for board, colour in kinds:
        group = [w for w in windows if (w.layer.layer.board, w.layer.layer.colour or "") == (board, colour)]
        too_large += [window for window in group if not _fits(window.outer_mm, sheets[-1])]
        group = [window for window in group if _fits(window.outer_mm, sheets[-1])]
        rest, out = _from_fall_outs(group)
        fall_outs += out
        made |= {one.window: " ".join(placed.blank.label for placed in one.cut.placed) for one in out}
        for sheet, cut in _on_sheets(rest, sheets):
            name = _letters(len(boards))
            boards.append(Board(name, board, colour, sheet, cut, group[0].mat.thickness_mm))
    marked = tuple(
        Window(w.label, w.piece, w.mat, w.layer, w.outer_mm, w.opening_mm, w.borders, made.get(w.label, ""))
        for w in windows
    )
    return CuttingList(marked, tuple(boards), tuple(fall_outs), tuple(too_large))


def _letters(index: int) -> str:
    return chr(65 + index) if index < 26 else _letters(index // 26 - 1) + chr(65 + index % 26)


def _fits(size: tuple[float, float], sheet: BoardSheet) -> bool:
    short, long = sorted(size)
    least, most = sorted((sheet.width_mm, sheet.height_mm))
    return short <= least + SAME_MM and long <= most + SAME_MM


def _blank(window: Window) -> Blank:
    return Blank(window.label, *window.outer_mm)


def _from_fall_outs(group: Sequence[Window]) -> tuple[list[Window], list[FallOut]]:
    """Small mats into the smallest window each fits; a mat that is itself a fall-out gives none.

    A fall-out has the size of the marked window once its bevel is trimmed off.
    """
    rest = list(group)
    inside: dict[str, list[Window]] = {}
    hosts = sorted(group, key=lambda window: window.opening_mm[0] * window.opening_mm[1])
    for small in sorted(group, key=lambda window: -window.outer_mm[0] * window.outer_mm[1]):
        if small.label in inside:
            continue
        for host in hosts:
            tried = [*inside.get(host.label, []), small]
            if host is not small and host in rest and fits([_blank(window) for window in tried], host.opening_mm):
                inside[host.label] = tried
                rest.remove(small)
                break
    by_label = {window.label: window for window in group}
    found = [
        FallOut(label, pack([_blank(window) for window in small], [by_label[label].opening_mm])[0])
        for label, small in inside.items()
    ]
    return rest, sorted(found, key=lambda one: one.window)


def _on_sheets(group: Sequence[Window], sheets: Sequence[BoardSheet]) -> list[tuple[BoardSheet, CutSheet]]:
    """The mats on the small sheets; those too large for them on the large ones, filled up with others."""
    if not group:
        return []
    usual, large = sheets[0], sheets[-1]
    big = [window for window in group if not _fits(window.outer_mm, usual)]
    blanks = [_blank(window) for window in group]
    order = [usual]
    if big:
        count = len(pack([_blank(window) for window in big], [_sides(large)]))
        order = [large] * count + [usual]
    try:
        cuts = pack(blanks, [_sides(sheet) for sheet in order])
    except ValueError:
        cuts = pack(blanks, [_sides(large)])
        order = [large]
    # A sheet on which nothing came to lie is not there any more, so sizes tell which is which.
    by_sides = {_sides(sheet): sheet for sheet in sheets}
    return [(by_sides[cut.width_mm, cut.height_mm], cut) for cut in cuts]


def _sides(sheet: BoardSheet) -> tuple[float, float]:
    """As it lies for cutting: the long side across."""
    return max(sheet.width_mm, sheet.height_mm), min(sheet.width_mm, sheet.height_mm)
