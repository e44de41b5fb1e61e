"""What the shop hands out of a customer, and what it forgets."""
