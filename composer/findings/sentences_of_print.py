"""Sentences about print, mat and picture."""

from composer.findings.words import Sentences, Words
from composer.texts import say


def _soft(words: Words) -> str:
    return say(
        "Piece {piece}: the picture gives {ppi} ppi on {width} × {height}; {needed} are needed from where it is seen.",
        piece=words.piece,
        ppi=f"{words.number('ppi'):.0f}",
        needed=f"{words.number('needed_ppi'):.0f}",
        width=words.mm("width_mm"),
        height=words.mm("height_mm"),
    )


def _soft_do(words: Words) -> str:
    return say(
        "Find a larger file, show more of the picture, or print it up to {width} × {height}; a mat makes it smaller.",
        width=words.mm("most_width_mm"),
        height=words.mm("most_height_mm"),
    )


def _no_stock(words: Words) -> str:
    return say(
        "Piece {piece}: no stock size covers {width} × {height}.",
        piece=words.piece,
        width=words.mm("width_mm"),
        height=words.mm("height_mm"),
    )


def _no_stock_do(words: Words) -> str:
    if words.number("mat"):
        return say("Choose a smaller window, add a larger size to your list, or have the print made to measure.")
    return say("Use a mat with a smaller window, add a larger size to your list, or have the print made to measure.")


def _stock_short(words: Words) -> str:
    if words.number("hidden_mm"):
        return say(
            "Piece {piece}: {stock} is short by {across} across and {up} up; lip or mat hides {hidden} on each side.",
            piece=words.piece,
            stock=words.word("stock"),
            across=words.mm("across_mm"),
            up=words.mm("up_mm"),
            hidden=words.mm("hidden_mm"),
        )
    return say(
        "Piece {piece}: {stock} is short by {across} across and {up} up, and that will show.",
        piece=words.piece,
        stock=words.word("stock"),
        across=words.mm("across_mm"),
        up=words.mm("up_mm"),
    )


def _stock_short_do(words: Words) -> str:
    if words.number("hidden_mm"):
        return say("Lay the print in the middle and tape it to its backing, so that it cannot slip.")
    return say("Choose the next larger size.")


def _touches(words: Words) -> str:
    return say(
        "Piece {piece}: without a mat the print lies against the glazing and may stick to it.", piece=words.piece
    )


def _touches_do(_: Words) -> str:
    return say("Use a mat or strips of spacer along the edges, above all for a photograph.")


def _deep(words: Words) -> str:
    return say(
        "Piece {piece}: what goes into the rabbet is {stack} thick ({sum}), the rabbet {rabbet} deep.",
        piece=words.piece,
        stack=words.mm("stack_mm"),
        rabbet=words.mm("rabbet_mm"),
        sum=words.word("sum"),
    )


def _deep_do(words: Words) -> str:
    if words.number("assumed"):
        return say("Measure glazing and backing; some thicknesses are the usual ones. Else take a thinner backing.")
    return say("Take a thinner backing or one board less, or hold the back with offset clips.")


def _mat_impossible(words: Words) -> str:
    return say(
        "Piece {piece}: the mat's borders leave no window, or no board, in {width} × {height}.",
        piece=words.piece,
        width=words.mm("width_mm"),
        height=words.mm("height_mm"),
    )


def _mat_impossible_do(_: Words) -> str:
    return say("Make the borders narrower, or the window smaller than the glass.")


def _mat_undecided(words: Words) -> str:
    return say("Piece {piece} has a mat, but neither its borders nor its window are decided.", piece=words.piece)


def _mat_undecided_do(_: Words) -> str:
    return say("Type a border, a window, or choose the print it shows.")


def _changed(words: Words) -> str:
    return say(
        "The picture of piece {piece} is another one than was linked: “{path}”.",
        piece=words.piece,
        path=words.word("path"),
    )


def _changed_do(_: Words) -> str:
    return say("Look at it; link it anew if it is the right one, or find the old file.")


def _unreadable(words: Words) -> str:
    return say("The picture of piece {piece} cannot be used: “{path}”.", piece=words.piece, path=words.word("path"))


def _unreadable_do(words: Words) -> str:
    return words.word("reason") or say("Copy the file again, or choose another.")


SENTENCES: Sentences = {
    "low-ppi": (_soft, _soft_do),
    "no-stock": (_no_stock, _no_stock_do),
    "stock-short": (_stock_short, _stock_short_do),
    "print-touches-glass": (_touches, _touches_do),
    "stack-too-deep": (_deep, _deep_do),
    "mat-impossible": (_mat_impossible, _mat_impossible_do),
    "mat-undecided": (_mat_undecided, _mat_undecided_do),
    "picture-changed": (_changed, _changed_do),
    "picture-unreadable": (_unreadable, _unreadable_do),
}
