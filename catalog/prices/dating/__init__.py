"""Adding dated prices beside whatever else is changed of the catalogue."""
