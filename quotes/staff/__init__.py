"""Who works here, and what each of them may do."""
