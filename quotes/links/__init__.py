"""Private links: how long they hold, how they are renewed, and the mails that carry them."""
