"""Causes that come back: one alarm for each while it stands, until a manager answers it."""
