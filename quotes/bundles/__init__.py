"""Several boats of one yard on one quote."""
