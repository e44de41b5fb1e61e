"""Calls while they are typed: kept box by box as typed, shared, never overwritten unseen."""
