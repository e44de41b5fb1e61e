"""Tables that come in: looked through, previewed, taken whole, and taken back."""
