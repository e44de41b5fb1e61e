"""Every change of a record: who, when, what, why. Written with the change, never edited."""
