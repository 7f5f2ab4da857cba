"""Hanging day, full screen: one piece at a time in numbers to be read from a ladder, strips in passes with clocks."""
