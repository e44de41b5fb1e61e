"""A shaft left long: what can be offered where no question makes the length surer.

The propeller end is finished; the coupling end is left long, for a yard at the boat to face to
length once the shaft lies in place (common practice, no source).
"""

from __future__ import annotations

from catalog.domain.lengths import Length
from intake.domain.case import Case
from intake.domain.gains import gains


def trim_length(case: Case) -> Length | None:
    """Coupling face to thread end as sent, to be faced to length; None where it is not called for.

    Called for where the gap is not sure enough and no question left would make it surer.
    """
    limits = case.limits
    if case.cut is None or min(case.fit_that_can_show, case.probability) >= limits.fit_ask:
        return None
    if any(gain >= limits.worth_asking for _, gain in gains(case)):
        return None
    return case.cut + case.metric_or_inch(limits.left_long, limits.left_long_metric)
