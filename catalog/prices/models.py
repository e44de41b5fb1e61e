"""What a part costs from which day."""
