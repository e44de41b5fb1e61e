"""Making a quote the offer that stands: the first time, and each time anew."""
