"""Keys of ``set`` about a piece's print, crop and mat: ``piece.3.stock=8x10in``, ``piece.3.zoom=1.2``.

Who calls them puts the key in front of what they refuse.
"""

import re
from collections.abc import Callable

from composer.commandline import typed
from composer.commandline.answers import Refused
from composer.commandline.near import suggestion
from composer.editing.print_edits import change_mat, choose_print, crop_picture, note_origin
from composer.model import EvenBorders, Key, MatLayer, PictureUse, Project, RatioBorders, WeightedBorders
from composer.prints.plan import current_use
from composer.prints.stock import stock_named, stock_sizes
from composer.projectfile.cells import plain_text
from composer.texts import say
from composer.units import read_money

Setter = Callable[[Project, Key, str], Project]

CUTS = ("centred", "left", "right", "top", "bottom")
EDGES = ("plain", "bleed")


def _use(project: Project, key: Key) -> PictureUse:
    piece = project.piece_by_key[key]
    use = current_use(piece)
    if use is None:
        raise Refused(say("piece {number} shows no picture yet; set its picture first.", number=piece.number))
    return use


def _set_stock(project: Project, key: Key, text: str) -> Project:
    _use(project, key)
    sizes = stock_sizes(project.units, project.catalogue)
    size = stock_named(sizes, text) if text else None
    if text and size is None:
        hint = suggestion(text, [one.id for one in sizes])
        raise Refused(say("“{found}” is not a stock size. {hint}", found=text[:40], hint=hint))
    return choose_print(project, key, stock=None if size is None else size.id).run(project)


def _set_cut(project: Project, key: Key, text: str) -> Project:
    _use(project, key)
    return choose_print(project, key, cut=typed.choice(text or "left", {name: name for name in CUTS})).run(project)


def _set_edge(project: Project, key: Key, text: str) -> Project:
    _use(project, key)
    return choose_print(project, key, edge=typed.choice(text or "plain", {name: name for name in EDGES})).run(project)


def _number(text: str, usual: float) -> float:
    if not text:
        return usual
    if not re.fullmatch(r"-?\d{1,4}([.,]\d{1,6})?", text):
        raise Refused(say("a number is expected, not “{found}”.", found=text[:40]))
    return float(text.replace(",", "."))


def _set_zoom(project: Project, key: Key, text: str) -> Project:
    _use(project, key)
    return crop_picture(project, key, zoom=_number(text, 1.0)).run(project)


def _set_tilt(project: Project, key: Key, text: str) -> Project:
    _use(project, key)
    return crop_picture(project, key, tilt_deg=_number(text, 0.0)).run(project)


def _set_turn(project: Project, key: Key, text: str) -> Project:
    _use(project, key)
    turns = {"0": 0, "90": 90, "180": 180, "270": 270}
    return crop_picture(project, key, turn=typed.choice(text or "0", turns)).run(project)


def _set_centre(project: Project, key: Key, text: str) -> Project:
    """Two shares of the picture's width and height, from its upper left corner: ``0.5,0.4``."""
    _use(project, key)
    parts = [part.strip() for part in (text or "0.5,0.5").split(",")]
    if len(parts) != 2:
        raise Refused(say("two shares such as 0.5,0.4 are expected, not “{found}”.", found=text[:40]))
    across, down = (_number(part, 0.5) for part in parts)
    return crop_picture(project, key, centre=(across, down)).run(project)


def _set_source(project: Project, key: Key, text: str) -> Project:
    return note_origin(_use(project, key).picture, source=plain_text(text)).run(project)


def _set_licence(project: Project, key: Key, text: str) -> Project:
    return note_origin(_use(project, key).picture, licence=plain_text(text)).run(project)


def _set_window(project: Project, key: Key, text: str) -> Project:
    parts = [part.strip() for part in re.split(r"[x×;]|,\s", text) if part.strip()]
    if len(parts) not in (0, 2):
        raise Refused(say("two lengths such as 18 cm x 24 cm are expected, not “{found}”.", found=text[:40]))
    width, height = (typed.bare_length(part, project.units) for part in parts) if parts else (None, None)
    return change_mat(project, key, window_width=width, window_height=height).run(project)


def _set_weight(project: Project, key: Key, text: str) -> Project:
    """How much wider the bottom border is: a length, or a ratio such as ``3:4``; empty = even."""
    if not text:
        return change_mat(project, key, borders=EvenBorders()).run(project)
    ratio = re.fullmatch(r"(\d{1,2}(?:\.\d+)?)\s*:\s*(\d{1,2}(?:\.\d+)?)", text)
    if ratio and float(ratio[1]) > 0:
        return change_mat(project, key, borders=RatioBorders(bottom_to_top=float(ratio[2]) / float(ratio[1]))).run(
            project
        )
    extra = typed.bare_length(text, project.units)
    return change_mat(project, key, borders=WeightedBorders(extra=extra)).run(project)


def _set_boards(project: Project, key: Key, text: str) -> Project:
    """Boards from the top down: ``mat-4-ply white; mat-4-ply red 5 mm``; the length is how much of it shows."""
    from composer.catalogue import catalogue as catalogues

    known = catalogues.of(project.catalogue).boards
    layers = []
    for index, part in enumerate(part.strip() for part in text.split(";") if part.strip()):
        words = part.split()
        if words[0] not in known:
            hint = suggestion(words[0], known)
            raise Refused(say("“{found}” is not a mat board. {hint}", found=words[0][:40], hint=hint))
        reveal = None
        found = re.search(r"\s(\d[\d .,/]*\s*(?:mm|cm|in|\"))$", part)
        if found and index:
            reveal = typed.bare_length(found[1], project.units)
            words = part[: found.start()].split()
        layers.append(MatLayer(board=words[0], colour=" ".join(words[1:]) or None, reveal=reveal))
    return change_mat(project, key, layers=tuple(layers)).run(project)


def _set_bevel(project: Project, key: Key, text: str) -> Project:
    return change_mat(project, key, bevel=typed.choice(text or "yes", {"yes": True, "no": False})).run(project)


def _set_print_price(project: Project, key: Key, text: str) -> Project:
    _use(project, key)
    price = read_money(text) if text else None
    return choose_print(project, key, price=price).run(project)


def _set_paper(project: Project, key: Key, text: str) -> Project:
    """The lab's kind of paper, in the person's own words; its prices are those of items such as ``8x10in lustre``."""
    _use(project, key)
    return choose_print(project, key, paper=plain_text(text) or None).run(project)


PRINT_SETTERS: dict[str, Setter] = {
    "stock": _set_stock,
    "cut": _set_cut,
    "edge": _set_edge,
    "printprice": _set_print_price,
    "printpaper": _set_paper,
    "crop": _set_centre,
    "zoom": _set_zoom,
    "pictureturn": _set_turn,
    "tilt": _set_tilt,
    "source": _set_source,
    "licence": _set_licence,
    "matwindow": _set_window,
    "matweight": _set_weight,
    "matboards": _set_boards,
    "bevel": _set_bevel,
}
"""By the folded name of the key's last part."""

PRINT_NAMES = (
    "stock", "cut", "edge", "print-price", "print-paper", "crop", "zoom", "picture-turn", "tilt", "source", "licence", "mat-window",
    "mat-weight", "mat-boards", "bevel",
)  # fmt: skip
