"""A shaft that did not fit: what is done about it, what it cost, what caused it."""
