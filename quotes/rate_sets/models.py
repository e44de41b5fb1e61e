"""The desk's rates, dated: what a price is made of besides the catalogue, from which day."""
