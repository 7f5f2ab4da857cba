"""Placing a picture in its frame by hand, in the room, at the very place where it will hang."""
