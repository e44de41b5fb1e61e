"""What was changed, and when: the marks on the manager's time line."""
