"""From what is up to what shall be up: which holes serve again, what moves in which order, what to fill."""
