"""What was made, as measured: the gap it will make, and whether it may go."""
