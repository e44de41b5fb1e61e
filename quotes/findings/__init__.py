"""What the desk should look at once more on a quote: its day, its price, its age."""
