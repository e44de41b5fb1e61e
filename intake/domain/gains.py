"""What each question still open would be worth: by how much the fit probability would rise."""

from __future__ import annotations

import math
from collections.abc import Iterator

from intake.domain.case import Case, improved
from intake.domain.inquiries import INQUIRIES, Inquiry, better_u

_SQRT2 = math.sqrt(2.0)


def gains(case: Case) -> Iterator[tuple[Inquiry, float]]:
    """Each inquiry open on this sheet, with its expected gain in fit probability."""
    if case.band is None or case.gap is None:
        return
    # What each slip costs if it is there and stays hidden.
    at_stake = [
        (one, one.probability, one.in_band(case.gap.nm, case.band))
        for one in case.explained
        if one.moves
    ]
    clean = 1.0 - sum(share for _, share, _ in at_stake)
    seen_from = 2.0 * _SQRT2 * case.u_nm
    for inquiry in INQUIRIES:
        if inquiry.open_(case.sheet):
            changed = better_u(case, inquiry)
            then = improved(case, changed) if changed else case.probability
            gain = clean * (then - case.probability)
            for one, share, lands in at_stake:
                gain += share * inquiry.shown(one, seen_from) * (then - lands)
            yield inquiry, gain
