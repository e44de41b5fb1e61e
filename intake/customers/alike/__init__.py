"""Records that are perhaps the same, suggested to whoever looks."""
