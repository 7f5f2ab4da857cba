"""Mutates inputs: bytes at random, words a reader may stumble over, and JSON by its structure."""

import json
import random
from typing import Any

NUMBERS = (
    "0", "-0", "-1", "1", "1e308", "-1e308", "1e999", "1e-400", "0.1", "100000", "100001", "999999999999999999999",
    "2147483648", "NaN", "Infinity", "-Infinity", "1.0000000000000002", "0x10", "1_000", "٣", "１",
)  # fmt: skip
TYPED = (
    "23 5/8 in", "4' 9 1/2\"", "4 ft 9 in", "6,5 cm", "5½ in", "3-1/2\"", "1,250 mm", "1 250,5 mm", "1/0 in", "-5 cm",
    "0 mm", "100 m", "100.0001 m", "1e3 mm", "9" * 40 + " mm", "1 lb 16 oz", "1.2 kg", "0 g", "11.40", "1.234", "½",
    "⅞", "′″", "− 3 mm", "3 mm\x00", "mm", "in in", "1 / 2 in", "00001 mm", ".5 in", "5. in", "1.5/2 in",
)  # fmt: skip
SIGNS = (
    "", " ", "\t", "\r", "\n", "\r\n", "\x00", "\x1b[31m", "\ufeff", "\u202e", "\u200b", "\u00a0", "\U0001f5bc",
    "שלום", "مرحبا", "漢字", "ä", "a\u0308", "=SUM(A1)", "+1", "-1", "@x", "'=x", '"', '""', "'", ",", ";", "\\", "/",
    "../../x", "A" * 300, "\ud7ff", "\ufffd", "\u2028",
)  # fmt: skip
VALUES: tuple[Any, ...] = (
    None, True, False, 0, -1, 1, 10**30, -(10**30), 0.5, -0.0, 1e308, "", "x", "p1", "w1", "h1", "A" * 1000, [], {}, [[]],
    [None], {"": None}, {"kind": "even"}, {"kind": "gap"}, {"kind": 3}, *TYPED, *SIGNS,
)  # fmt: skip


def mutated(chance: random.Random, seeds: list[bytes]) -> bytes:
    """One of the seeds, changed in one to six ways."""
    data = chance.choice(seeds)
    for _ in range(chance.choice((1, 1, 1, 2, 3, 6))):
        data = chance.choice(_WAYS)(chance, data, seeds)
    return data[:200_000]


def _place(chance: random.Random, data: bytes) -> int:
    return chance.randint(0, len(data))


def _flip(chance: random.Random, data: bytes, _: list[bytes]) -> bytes:
    if not data:
        return b"\x00"
    place = chance.randrange(len(data))
    return data[:place] + bytes([data[place] ^ (1 << chance.randrange(8))]) + data[place + 1 :]


def _byte(chance: random.Random, data: bytes, _: list[bytes]) -> bytes:
    place = _place(chance, data)
    return data[:place] + bytes([chance.randrange(256)]) + data[place + chance.randint(0, 1) :]


def _cut(chance: random.Random, data: bytes, _: list[bytes]) -> bytes:
    start = _place(chance, data)
    return data[:start] + data[start + chance.choice((1, 2, 8, 64, 10_000)) :]


def _repeat(chance: random.Random, data: bytes, _: list[bytes]) -> bytes:
    start = _place(chance, data)
    part = data[start : start + chance.choice((1, 3, 30, 300))]
    return data[:start] + part * chance.choice((2, 3, 50)) + data[start:]


def _splice(chance: random.Random, data: bytes, seeds: list[bytes]) -> bytes:
    other = chance.choice(seeds)
    return data[: _place(chance, data)] + other[_place(chance, other) :]


def _word(chance: random.Random, data: bytes, _: list[bytes]) -> bytes:
    word = chance.choice(chance.choice((NUMBERS, TYPED, SIGNS))).encode("utf-8", "surrogatepass")
    place = _place(chance, data)
    return data[:place] + word + data[place + chance.choice((0, 0, len(word), 1)) :]


def _cell(chance: random.Random, data: bytes, _: list[bytes]) -> bytes:
    """Another text between two delimiters, as of a table, or between two quotation marks, as of JSON."""
    mark = chance.choice((b",", b'"', b";", b"\n", b" "))
    parts = data.split(mark)
    parts[chance.randrange(len(parts))] = chance.choice((*NUMBERS, *TYPED, *SIGNS)).encode("utf-8", "surrogatepass")
    return mark.join(parts)


def _nest(chance: random.Random, data: bytes, _: list[bytes]) -> bytes:
    place, depth = _place(chance, data), chance.choice((3, 300, 50_000))
    opening, closing = chance.choice(((b"[", b"]"), (b'{"a":', b"}"), (b'"', b'"')))
    return data[:place] + opening * depth + chance.choice((b"", closing * depth)) + data[place:]


def _tree(chance: random.Random, data: bytes, seeds: list[bytes]) -> bytes:
    """Another value, a field more, less or under another name, somewhere in JSON."""
    try:
        value = json.loads(data)
    except (ValueError, RecursionError):
        return _word(chance, data, seeds)
    nodes: list[Any] = []
    _gather(value, nodes)
    if not nodes:
        return _word(chance, data, seeds)
    node = chance.choice(nodes)
    way = chance.randrange(6)
    if isinstance(node, dict) and node:
        key = chance.choice(list(node))
        if way == 0:
            del node[key]
        elif way == 1:
            node[chance.choice((key + "s", "kind", "", "ключ"))] = node[key]
        elif way == 2:
            node[key] = [node[key]] * chance.choice((2, 40))
        else:
            node[key] = chance.choice(VALUES)
    elif isinstance(node, list) and node:
        place = chance.randrange(len(node))
        if way == 0:
            del node[place]
        elif way == 1:
            node[:] = node * chance.choice((2, 30))
        elif way == 2:
            node.insert(place, chance.choice(nodes) if len(data) < 20_000 else None)
        else:
            node[place] = chance.choice(VALUES)
    else:
        return _word(chance, data, seeds)
    try:
        return json.dumps(value, ensure_ascii=chance.random() < 0.5).encode("utf-8", "surrogatepass")
    except (ValueError, RecursionError):  # a list that now holds itself
        return _word(chance, data, seeds)


def _gather(value: Any, nodes: list[Any]) -> None:
    stack = [value]
    while stack:
        node = stack.pop()
        if isinstance(node, dict | list):
            nodes.append(node)
            stack.extend(node.values() if isinstance(node, dict) else node)


_WAYS = (_flip, _byte, _cut, _repeat, _splice, _word, _word, _cell, _cell, _nest, _tree, _tree, _tree, _tree)
