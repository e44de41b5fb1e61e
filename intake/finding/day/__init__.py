"""One day at the desk on one screen."""
