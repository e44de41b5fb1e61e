"""Charts as plain SVG text, each readable without colour; their tables stand beside them."""
