"""Which print to order, how sharp it is, how its mat is cut: arithmetic in millimetres, no files."""
