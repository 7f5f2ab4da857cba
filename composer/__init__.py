"""Wallwright: plans a picture wall to scale and prints the paper to hang it by."""

__version__ = "0.1.0"
