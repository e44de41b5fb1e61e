"""Deciding about a case."""
