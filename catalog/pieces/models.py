"""Bars, blanks and remnants as pieces, with length, heat and place; goods in."""
