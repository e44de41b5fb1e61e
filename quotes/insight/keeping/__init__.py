"""Keeping facts and counts up with the records, without costing any request anything."""
