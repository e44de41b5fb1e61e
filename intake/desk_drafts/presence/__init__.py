"""Who has which page open right now."""
