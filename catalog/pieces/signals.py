"""What this room tells the rooms to its right about the rack, inside the same transaction."""

from __future__ import annotations

from django.dispatch import Signal

# Pieces stand in the rack that did not before. Whoever hears it has the turn to change the shelf.
goods_came = Signal()
