"""One file for each question of the manager's: figures, picture, table."""
