"""What we supplied before and how it fitted: written by the shop, read when a sheet is judged."""
