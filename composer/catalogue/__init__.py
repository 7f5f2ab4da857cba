"""Generic classes of hardware and materials with their figures, sources and how far to trust them."""
