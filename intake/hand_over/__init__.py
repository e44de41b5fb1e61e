"""A draft on its way from one phone to another: kept for a day under an unguessable name."""
