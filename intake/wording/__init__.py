"""The words of a question, version by version."""
