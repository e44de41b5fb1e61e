"""Everything the desk knows in one file, and the way back. Photos and papers are rows: nothing
stands beside the database but the settings."""
