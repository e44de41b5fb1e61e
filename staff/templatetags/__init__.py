"""Tags of the staff's pages."""
