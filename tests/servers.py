"""Servers for the tests."""
