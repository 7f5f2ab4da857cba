"""Picture files in the window: brought in, watched, found again, packed, written as print files."""
