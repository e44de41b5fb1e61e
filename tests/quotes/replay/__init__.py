"""Replays: a period judged again under changed limits."""
