"""What stops a backup or a restore."""

from __future__ import annotations


class BackupError(Exception):
    """A sentence for whoever keeps the desk: what is wrong, and what to do."""
