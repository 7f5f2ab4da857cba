"""What a wall costs: needs, whole packs, what is used up and what stays in the drawer, and how to pay less."""
