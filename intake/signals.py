"""What intake tells the rooms to its right, without knowing them."""

from __future__ import annotations

from django.dispatch import Signal

# A submission may be quoted. Sent inside the transaction that made it so, with ``submission=``:
# a receiver writes its job row there and leaves the work for later.
submission_ready = Signal()

# A call led to a new sheet version: whatever was made from the old one (a quote) no longer holds.
# Sent inside the transaction with ``submission=``, before ``submission_ready``.
sheet_replaced = Signal()
