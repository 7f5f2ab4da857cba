"""One piece's print and mat worked out: what every face, sheet and finding shows of them."""

from dataclasses import dataclass
from functools import lru_cache, partial

from composer.catalogue import catalogue as catalogues
from composer.model import Arrangement, Frame, Mat, Money, MoneyNotes, Picture, PictureUse, Piece, Project, Units
from composer.model.notes import CatalogueNotes
from composer.prints.choosing import Advice, Choice, Cut, Fit, choose, fit_of, picture_on_sheet, sides_cut
from composer.prints.cropping import CropBox, crop_box
from composer.prints.marks import SheetLayout
from composer.prints.mats import MatPlan, MatRefused, layout
from composer.prints.sharpness import needed_ppi, ppi_of
from composer.prints.stock import StockSize, price_of, stock_named, stock_sizes

PLAIN = PictureUse(picture="i1")
"""Stands for the choices of a piece that has no picture yet."""


@dataclass(frozen=True, slots=True)
class PrintPlan:
    """The print for one piece, in the orientation in which the piece hangs.

    Attributes:
        needed_mm: what the print must at least have: the glass, or the window and the overlap.
        visible_mm: what shows of it: the sight size, or the window; None where the face is not known.
        choice: the stock that covers, others, ways out.
        fit: the stock to order: the one typed, else the best; None = none covers.
        chosen: whether the person chose it.
        cut: where the picture lies on the sheet.
        trim_from: edges that are cut off, ``right bottom``; empty = nothing.
        pixels: of the picture as the camera meant it; None = no picture, or not read yet.
        crop: what of it fills the needed size.
        ppi: of that crop over the needed size.
        ppi_needed: from where the wall is looked at.
        price: of one print.
    """

    needed_mm: tuple[float, float]
    visible_mm: tuple[float, float] | None
    choice: Choice
    fit: Fit | None
    chosen: bool
    cut: Cut
    trim_from: str
    pixels: tuple[int, int] | None
    crop: CropBox | None
    ppi: float | None
    ppi_needed: float
    price: Money | None

    @property
    def advice(self) -> tuple[Advice, ...]:
        """Ways out where no stock covers, and sizes short by a little."""
        return self.choice.advice

    @property
    def soft(self) -> bool:
        """Whether the pixels do not carry this size."""
        return self.ppi is not None and self.ppi < self.ppi_needed

    @property
    def layout(self) -> SheetLayout | None:
        """Where the picture lies on its sheet; None where there is no sheet to order."""
        if self.fit is None:
            return None
        at = picture_on_sheet(self.fit, self.cut)
        return SheetLayout.of((self.fit.width_mm, self.fit.height_mm), self.needed_mm, at)

    def enlarged(self, printed_ppi: float) -> float | None:
        """How many times each pixel of the picture is enlarged in a file of that density; None = no picture."""
        return None if self.ppi is None else printed_ppi / self.ppi


@dataclass(frozen=True, slots=True)
class PiecePlan:
    """What a piece needs: its mat, its print; each None where too little is measured."""

    piece: Piece
    use: PictureUse | None
    turned: bool
    glass_mm: tuple[float, float] | None
    mat: MatPlan | None
    mat_refused: MatRefused | None
    print: PrintPlan | None


def current_use(piece: Piece) -> PictureUse | None:
    """The picture the piece shows now; None = none."""
    return None if piece.current_use is None else piece.uses[piece.current_use]


def plan(project: Project, piece: Piece, arrangement: Arrangement | None = None) -> PiecePlan:
    """The plan of one piece in one arrangement (the current one by default)."""
    chosen = project.arrangement if arrangement is None else arrangement
    place = next((place for place in chosen.placements if place.piece == piece.key), None)
    wall = None if place is None else project.wall_by_key[place.wall]
    distance = None if wall is None or wall.viewing_distance is None else float(wall.viewing_distance.mm)
    use = current_use(piece)
    picture = None if use is None else project.picture_by_key[use.picture]
    turned = place is not None and place.turned
    return plan_piece(piece, turned, distance, picture, project.catalogue, project.money, project.units)


@lru_cache(maxsize=4096)
def plan_piece(
    piece: Piece,
    turned: bool,
    distance_mm: float | None,
    picture: Picture | None,
    catalogue: CatalogueNotes,
    money: MoneyNotes,
    units: Units,
) -> PiecePlan:
    """The plan from exactly what it depends on; the same values give the same object.

    Args:
        turned: the piece hangs a quarter turned; the picture then still stands upright.
        distance_mm: from where the wall is looked at; None = nobody said.
        picture: the one it shows; its ``pixels`` must have been read to say how sharp it is.
    """
    glass = _turned(piece.frame.glass_mm, turned)
    use = current_use(piece)
    sizes = stock_sizes(units, catalogue)
    mat: MatPlan | None = None
    refused: MatRefused | None = None
    if glass is not None and piece.mat is not None:
        art = _typed_stock(use, sizes, piece.mat, glass)
        made = layout(glass, piece.mat, units, art_mm=art, catalogue=catalogues.of(catalogue), turned=turned)
        mat, refused = (made, None) if isinstance(made, MatPlan) else (None, made)
    needed = None if refused is not None else glass if mat is None else mat.print_mm
    printed = None
    if needed is not None and min(needed) > 0:
        visible = _turned(piece.frame.sight_mm, turned) if mat is None else mat.window_mm
        overlap = None if mat is None else mat.overlap_mm
        printed = _print(needed, visible, overlap, use or PLAIN, picture, sizes, money, distance_mm)
    return PiecePlan(piece, use, turned, glass, mat, refused, printed)


def _turned(size: tuple[float, float] | None, turned: bool) -> tuple[float, float] | None:
    return size if size is None or not turned else (size[1], size[0])


def _typed_stock(
    use: PictureUse | None, sizes: tuple[StockSize, ...], mat: Mat, glass: tuple[float, float]
) -> tuple[float, float] | None:
    """The print at hand from which a mat's window follows: the stock the person chose, as it fits the frame."""
    typed = None if use is None or use.print.stock is None else stock_named(sizes, use.print.stock)
    if typed is None:
        return None
    fit = fit_of(typed, glass)
    upright = (typed.width_mm, typed.height_mm)
    return upright if glass[1] >= glass[0] or fit.width_mm == fit.height_mm else upright[::-1]


def _print(
    needed: tuple[float, float],
    visible: tuple[float, float] | None,
    overlap: float | None,
    use: PictureUse,
    picture: Picture | None,
    sizes: tuple[StockSize, ...],
    money: MoneyNotes,
    distance_mm: float | None,
) -> PrintPlan:
    prices = partial(_price, use.print.paper, money)
    choice = choose(needed, sizes, prices, overlap_mm=overlap)
    typed = None if use.print.stock is None else stock_named(sizes, use.print.stock)
    fit = choice.best if typed is None else fit_of(typed, needed, prices(typed))
    pixels = None if picture is None else picture.pixels
    crop = None if pixels is None else crop_box(pixels, use.crop, needed)
    price = use.print.price
    if price is None and fit is not None:
        price = fit.price
    return PrintPlan(
        needed_mm=needed,
        visible_mm=visible,
        choice=choice,
        fit=fit,
        chosen=typed is not None,
        cut=use.print.cut,
        trim_from="" if fit is None else sides_cut(fit.trim_mm, use.print.cut),
        pixels=pixels,
        crop=crop,
        ppi=None if crop is None else ppi_of((crop.width, crop.height), needed),
        ppi_needed=needed_ppi(distance_mm),
        price=price,
    )


def _price(paper: str | None, money: MoneyNotes, size: StockSize) -> Money | None:
    return price_of(size, paper, money)


def sight_in_print(frame: Frame, needed_mm: tuple[float, float], visible_mm: tuple[float, float] | None) -> float:
    """How wide a strip of the print lip or mat hides on each side at least, mm; 0 where that is unknown."""
    if visible_mm is None or frame.lip is None:
        return 0.0
    return max(0.0, min(needed_mm[0] - visible_mm[0], needed_mm[1] - visible_mm[1]) / 2)
