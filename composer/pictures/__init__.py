"""Files of pictures: looked into, decoded small, found again, and written as print files."""
