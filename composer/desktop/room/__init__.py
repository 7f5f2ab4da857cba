"""The room: the wall to scale, the floor below it, and what is done with the hand."""
