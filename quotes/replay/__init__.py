"""Last season once more under other limits: what would have been asked, caught and missed."""
