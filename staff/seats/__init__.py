"""Who sits at which screen: one row for each login, from the door to its end."""
