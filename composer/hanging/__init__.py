"""Where a piece bears on the wall, how strips are placed, what it weighs, and the working behind it."""
