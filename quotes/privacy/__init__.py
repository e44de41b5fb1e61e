"""What this room keeps of a customer: handed out with the rest, and erased with it."""
