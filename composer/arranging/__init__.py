"""Finding places for pieces: patterns, sketches, truing up, and what may be said of an arrangement."""
