"""Opening a case."""
