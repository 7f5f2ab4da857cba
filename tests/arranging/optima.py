"""The tightest blocks there are, for the thirty frame sets of 5 to 9 frames.

Area of the box around the frames, each grown by half of 50 mm on every side, mm²; width ÷ height of the
block from 1 to 2. Proven optimal by a constraint solver (CP-SAT of OR-Tools 9, NoOverlap2D, one thread),
which the tests do not need.
"""

OPTIMA_MM2: dict[tuple[int, int], int] = {
    (5, 0): 927072, (5, 1): 616850, (5, 2): 1433600, (5, 3): 1015341, (5, 4): 594848, (5, 5): 876825,
    (6, 0): 1309216, (6, 1): 1427580, (6, 2): 2158332, (6, 3): 1624178, (6, 4): 1686258, (6, 5): 1734440,
    (7, 0): 1131108, (7, 1): 1073142, (7, 2): 964236, (7, 3): 1011402, (7, 4): 1536000, (7, 5): 2196953,
    (8, 0): 1897296, (8, 1): 1023178, (8, 2): 956760, (8, 3): 744753, (8, 4): 1782950, (8, 5): 1088725,
    (9, 0): 863041, (9, 1): 1477670, (9, 2): 1924280, (9, 3): 1400886, (9, 4): 2999568, (9, 5): 2071941,
}  # fmt: skip
