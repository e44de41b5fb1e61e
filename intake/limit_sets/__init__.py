"""The limits in force: rows that are only added, and the set of them the checks are given."""
