"""Which bar or remnant a shaft is made from: held, taken, given back."""
