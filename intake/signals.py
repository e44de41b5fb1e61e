"""What intake tells the rooms to its right, without knowing them."""

from __future__ import annotations

from django.dispatch import Signal

# A submission may be quoted. Sent inside the transaction that made it so, with ``submission=``:
# a receiver writes its job row there and leaves the work for later. ``is_new=``: it was stored a
# moment ago, so nobody can have made anything from it yet, and there is nothing to look for.
submission_ready = Signal()

# A call led to a new sheet version: whatever was made from the old one (a quote) no longer holds.
# Sent inside the transaction with ``submission=``, before ``submission_ready``.
sheet_replaced = Signal()

# Everything kept about these requests is to be handed to the customer: ``submissions=[pk, …]``.
# Each receiver answers the name of its part, its rows as JSON has them, and files by their names.
customer_asked = Signal()

# Which of these requests, ``submissions=[pk, …]``, are accepted orders that are not finished? Each
# receiver answers their references.
orders_asked = Signal()

# Who sent these requests, ``submissions=[pk, …]``, was erased: whatever else tells of them goes
# too. Sent inside the transaction; a receiver that fails takes everything back with it.
customer_erased = Signal()
