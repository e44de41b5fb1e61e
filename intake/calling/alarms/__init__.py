"""Calls that should have been made by now: counted, and told to the manager once a day."""
