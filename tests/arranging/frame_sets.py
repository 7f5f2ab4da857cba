"""Frame sets to try arranging on: sizes as people own them, made up the same way on every machine.

Print sizes from 4×6 to 24×36 in, weighted to the small ones, with 8 to 41 mm of moulding on each side,
35 % of them landscape, 12 % twins of one before. The weights are an assumption, no source. Only
``Random.random`` is used, whose sequence Python's documentation promises to keep.
"""

from random import Random

from composer.arranging.task import Size

_PRINTS_IN = (
    (4, 6), (4, 6), (5, 7), (5, 7), (5, 7), (8, 10), (8, 10), (8, 10), (8.5, 11), (8.5, 11),
    (9, 12), (11, 14), (11, 14), (12, 16), (12, 16), (16, 20), (16, 20), (18, 24), (20, 30), (24, 36),
)  # fmt: skip


def frame_set(count: int, seed: int) -> tuple[Size, ...]:
    """``count`` frames with outer sizes in whole millimetres, numbered from 1."""
    dice = Random(1000 * count + seed)
    sizes: list[tuple[float, float]] = []
    for _ in range(count):
        if sizes and dice.random() < 0.12:
            sizes.append(sizes[int(dice.random() * len(sizes))])
            continue
        short, long = _PRINTS_IN[int(dice.random() * len(_PRINTS_IN))]
        moulding = 8 + int(dice.random() * 34)
        width, height = round(short * 25.4) + 2.0 * moulding, round(long * 25.4) + 2.0 * moulding
        sizes.append((height, width) if dice.random() < 0.35 else (width, height))
    return tuple(Size(number, width, height) for number, (width, height) in enumerate(sizes, 1))
