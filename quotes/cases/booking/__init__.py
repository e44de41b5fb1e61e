"""What a case costs."""
