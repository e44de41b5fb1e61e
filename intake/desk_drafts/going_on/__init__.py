"""A draft that goes on from a stored request: begun, and set onto a newer sheet."""
