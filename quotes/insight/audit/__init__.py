"""Audit calls: some requests that nothing held are called about all the same, at random."""
