"""Plane geometry in millimetres, y up: rectangles, wall outlines."""
