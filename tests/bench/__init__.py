"""How fast, as ratios against a floor measured in the same run: ``python -m tests.bench``."""
