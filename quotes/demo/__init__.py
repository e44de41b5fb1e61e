"""Invented requests for the demo shop: no boat, person or maker in it exists."""
