"""Customers' own parts, received before they are fitted and faced."""
