"""What mistakes and calls cost the desk, and what it aims at. Every figure is the desk's to set.

The costs are an invented model and the targets invented starters; they are never shown to a
customer and move no price.
"""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal


@dataclass(frozen=True, slots=True)
class CostModel:
    """Money in the shop's currency, shares from 0 to 1.

    What was booked on a case always counts before these: they stand where nothing is known yet.
    """

    # What one of each costs (invented).
    call: Decimal = Decimal("12.00")  # one call-back
    shaft_too_short: Decimal = Decimal("470.00")  # made again: bar, labour, freight, desk
    shaft_too_long: Decimal = Decimal("180.00")  # shortened and keyed again
    wrong_part: Decimal = Decimal("75.00")  # a coupling or bearing swapped
    # What we aim at (invented).
    first_time_right: Decimal = Decimal("0.96")
    coverage: Decimal = Decimal("0.80")
    precision: Decimal = Decimal("0.60")
    recall: Decimal = Decimal("0.90")
    again: Decimal = Decimal("0.15")  # at most
    flags_per_request: Decimal = Decimal("0.40")  # at most
    unknown_cause: Decimal = Decimal("0.10")  # at most
    # A cause that was seen so often in so many days is told of.
    alarm_after: int = 3
    alarm_days: int = 90


USUAL = CostModel()
