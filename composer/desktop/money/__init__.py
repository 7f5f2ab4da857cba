"""Money on the screen: the total in the foot of the list, and the window of costs."""
