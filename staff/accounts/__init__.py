"""Who works here, and what each group may do."""
