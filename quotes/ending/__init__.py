"""How a quote ends: replaced, void, cancelled, run out."""
