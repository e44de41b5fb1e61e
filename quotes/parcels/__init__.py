"""Orders of parts alone: packed, sent, asked about. They need no bar, no lathe, no inspection."""
