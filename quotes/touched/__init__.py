"""Open quotes that name a part of the catalogue."""
