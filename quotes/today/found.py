"""A request is also found by the number of its quote."""

from __future__ import annotations

from intake.finding.words import also_found_by
from quotes.today.selectors import numbers_of

also_found_by(numbers_of)
