"""From facts to counts by month."""
