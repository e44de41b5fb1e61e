"""Lines that every step of a case leaves."""
