"""Where a customer is told of without being linked: drafts by number or name, and free words."""
