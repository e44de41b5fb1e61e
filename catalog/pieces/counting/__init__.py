"""How many whole bars there are, said by the pieces themselves."""
