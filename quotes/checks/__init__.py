"""The shop's own checks: they look at what leaves the desk, not at what came in."""

from __future__ import annotations

from typing import Any

from quotes.checks.accepted import nothing_changed
from quotes.checks.as_made import how_it_seats, how_true_it_runs, length_as_made
from quotes.checks.bars import nothing_is_wasted
from quotes.checks.base import ShopCheck
from quotes.checks.cut_sheet import ChainLimits, the_chain_adds_up
from quotes.checks.outcomes import it_fits_as_predicted, it_was_told_how_it_fitted
from quotes.checks.prices import in_time, priced_as_usual, still_holds
from quotes.domain.stations import Chain

__all__ = ["ALL", "CHECKS", "ShopCheck", "the_chain_adds_up"]

# What a chain of stations is held to before a cut sheet leaves.
CHECKS: tuple[ShopCheck[Chain, ChainLimits], ...] = (the_chain_adds_up,)

# Every check of the shop, whatever it looks at: one a line, in the order of their numbers.
ALL: tuple[ShopCheck[Any, Any], ...] = (
    nothing_is_wasted,  # 109
    nothing_changed,  # 117
    in_time,  # 118
    priced_as_usual,  # 120
    still_holds,  # 121
    the_chain_adds_up,  # 123
    length_as_made,  # 124
    how_true_it_runs,  # 125
    how_it_seats,  # 126
    it_was_told_how_it_fitted,  # 127
    it_fits_as_predicted,  # 128
)
