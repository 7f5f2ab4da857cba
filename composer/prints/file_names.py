"""What print files are called: names that every computer and every lab's upload takes."""

import re
import unicodedata
from typing import Literal

from composer.model import Piece
from composer.prints.stock import StockSize

FileKind = Literal["jpeg", "tiff", "png"]
SUFFIX: dict[FileKind, str] = {"jpeg": "jpg", "tiff": "tif", "png": "png"}


def file_name(piece: Piece, stock: StockSize, kind: FileKind = "jpeg") -> str:
    """``03_8x10in_boats.jpg``: the piece's number, the sheet, its name in plain letters."""
    name = plain(piece.name) or "picture"
    return f"{piece.number:02d}_{plain(stock.id)}_{name}.{SUFFIX[kind]}"


_LETTERS = str.maketrans(
    {"ß": "ss", "æ": "ae", "Æ": "ae", "ø": "o", "Ø": "o", "œ": "oe", "Œ": "oe", "ł": "l", "Ł": "l", "đ": "d", "Đ": "d",
     "þ": "th", "Þ": "th", "ð": "d", "Ð": "d", "ı": "i", "ħ": "h", "Ħ": "h"}
)  # fmt: skip


def plain(text: str, most: int = 40) -> str:
    """The text in the letters every computer and every lab's upload takes: a–z, 0–9, dot, hyphen."""
    bare = unicodedata.normalize("NFKD", text.translate(_LETTERS)).encode("ascii", "ignore").decode()
    return re.sub(r"[^a-z0-9.]+", "-", bare.casefold()).strip("-.")[:most].rstrip("-.")
