"""The manager's numbers: a fact for each request, counted by month, shown page by page."""
