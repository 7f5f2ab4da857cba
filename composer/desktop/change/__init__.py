"""The next change on the screen: what is up, the rehang plan, old holes and free places in the room."""
