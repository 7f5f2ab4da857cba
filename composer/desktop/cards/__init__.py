"""The card: what is selected, its numbers, and how each came about."""
