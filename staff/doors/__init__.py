"""The doors: login, the code after it, the lock and how it opens."""
