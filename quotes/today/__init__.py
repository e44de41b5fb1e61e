"""The quotes of one day: what went out, what waits for an answer, what is about to lapse."""
