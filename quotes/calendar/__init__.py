"""The shop's closed days and its load: what stands behind every date."""
