"""The manager's questions as pure arithmetic: counts in, rates with their intervals out."""
