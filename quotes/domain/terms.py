"""What was agreed with one customer about prices."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal


@dataclass(frozen=True, slots=True)
class Terms:
    """``discount``: part of goods and work that is taken off, as a fraction from 0 to below 1."""

    discount: Decimal = Decimal(0)


NO_TERMS = Terms()
