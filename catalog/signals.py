"""What rooms to the right are asked before the catalogue changes."""

from __future__ import annotations

from django.dispatch import Signal

# Sent with ``code``: what rests on this part? Each receiver answers with a list of `Touched`.
part_will_change = Signal()
