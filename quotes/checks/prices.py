"""Checks of a quote's days and money: too late, oddly priced, no longer what it costs.

All three are notes to the desk: none of them holds a quote back.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date, timedelta
from decimal import Decimal

from intake.checks.base import Mismatch
from intake.domain.verdict import Severity
from quotes.checks.base import check
from quotes.domain.lead import FITTING, TRANSIT, ready_on
from quotes.domain.money import money_text
from quotes.domain.tax import percent


@dataclass(frozen=True, slots=True)
class NeedFacts:
    """``needed``: the day it must be in the boat, None where nobody said; ``leaves``: the last day
    on which it leaves us."""

    needed: date | None
    leaves: date | None


@dataclass(frozen=True, slots=True)
class NeedLimits:
    """Days on the road and days to fit it. Common practice, no source."""

    transit: int = TRANSIT
    fitting: int = FITTING


@check(
    "needed-by",
    Severity.NOTE,
    NeedLimits(),
    ask="Which day must she float, and can the lift move?",
    source="common practice",
)
def in_time(facts: NeedFacts, limits: NeedLimits) -> Iterator[Mismatch]:
    """It may come too late: our days, the way to her and the fitting take longer than there is.

    A launch is booked already. A rush puts the work first, or the day moves.
    """
    if facts.needed is None or facts.leaves is None:
        return
    ready = ready_on(facts.leaves, limits.transit, limits.fitting)
    if ready > facts.needed:
        late = (ready - facts.needed).days
        yield Mismatch(
            ("needed_by",),
            f"Needed by {facts.needed}, in the boat by {ready} at the latest: {late} "
            f"day{'' if late == 1 else 's'} late, with {limits.transit} on the road and "
            f"{limits.fitting} to fit it.",
        )


@dataclass(frozen=True, slots=True)
class PriceFacts:
    """The bar of a quote: its row, what it came to, and what the model says (None: nothing)."""

    row: str
    amount: Decimal
    expected: Decimal | None


@dataclass(frozen=True, slots=True)
class PriceLimits:
    """Parts of the model's price between which a price is taken as it is. The desk's own."""

    least: Decimal = Decimal("0.7")
    most: Decimal = Decimal("1.5")


@check(
    "price-outlier",
    Severity.NOTE,
    PriceLimits(),
    ask="Which price row was used, and why that one?",
    source="own records",
)
def priced_as_usual(facts: PriceFacts, limits: PriceLimits) -> Iterator[Mismatch]:
    """The bar costs far more or less than its size and metal usually do.

    Usually a row of another metal. The model: price = rate of the metal × D² × length, the rate
    being the median of the last year's quotes of that metal, or with fewer than 20 of them of the
    catalogue's own rows.
    """
    if not facts.expected:
        return
    part = facts.amount / facts.expected
    if not limits.least <= part <= limits.most:
        yield Mismatch(
            (),
            f"{facts.row} at {money_text(facts.amount)} is {percent(round(part, 2))} % of what "
            f"such a bar usually costs, about {money_text(facts.expected)}.",
        )


@dataclass(frozen=True, slots=True)
class AgeFacts:
    """When a quote was priced, today, for how many days it held; the bar's price for one unit of
    length then and now, None where it has no row."""

    priced_on: date
    today: date
    validity_days: int
    price_then: Decimal | None
    price_now: Decimal | None


@dataclass(frozen=True, slots=True)
class AgeLimits:
    """The part by which a bar's price may have moved. Common practice, no source."""

    moved: Decimal = Decimal("0.05")


@check(
    "quote-expired",
    Severity.NOTE,
    AgeLimits(),
    ask="What has changed on the boat since the day we priced it?",
    source="common practice",
)
def still_holds(facts: AgeFacts, limits: AgeLimits) -> Iterator[Mismatch]:
    """The quote is older than it holds, or its metal costs something else by now.

    Boat and prices may both have changed: it is issued anew before anything is cut.
    """
    until = facts.priced_on + timedelta(days=facts.validity_days)
    if facts.today > until:
        yield Mismatch((), f"Priced on {facts.priced_on}, and held until {until}.")
    if facts.price_then and facts.price_now:
        moved = facts.price_now / facts.price_then - 1
        if abs(moved) > limits.moved:
            way = "up" if moved > 0 else "down"
            yield Mismatch((), f"The bar's price has gone {way} by {percent(_tenths(moved))} %.")


def _tenths(part: Decimal) -> Decimal:
    return round(abs(part), 3)
