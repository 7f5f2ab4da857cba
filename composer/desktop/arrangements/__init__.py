"""Arranging in the window: sketches to choose from, truing up, several arrangements side by side."""
