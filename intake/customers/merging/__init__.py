"""Two records that are the same become one, and can be parted again."""
