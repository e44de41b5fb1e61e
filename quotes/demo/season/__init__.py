"""Eighteen months of an invented desk, for the manager to look at."""
