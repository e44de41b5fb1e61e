"""What the shop tells the rest of this room."""

from __future__ import annotations

from django.dispatch import Signal

# A shaft has left us: ``quote``, ``day``. Sent inside the transaction that writes it.
shipped = Signal()
