"""What customers answer alone, on their own page."""
