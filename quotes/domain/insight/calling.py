"""Is calling worth it? What calls cost, against what they kept from going wrong."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import ROUND_HALF_UP, Decimal

from quotes.domain.cost_model import CostModel
from quotes.domain.insight.measures import Counts, Measure, total


@dataclass(frozen=True, slots=True)
class CallMonth:
    """One month, and everything from the first month to it. Money in cents."""

    month: str
    calls: int
    avoided: int
    calls_so_far: int
    saved_so_far: int


@dataclass(frozen=True, slots=True)
class Calling:
    """Month by month. ``each``: what one avoided misfit is taken to save, in cents."""

    months: tuple[CallMonth, ...]
    call_cents: int
    each_cents: int

    @property
    def net_cents(self) -> int:
        """What calling has saved in all, less what it cost."""
        last = self.months[-1] if self.months else None
        return last.saved_so_far - last.calls_so_far if last else 0


def calling(counts: Counts, months: Sequence[str], costs: Mapping[str, CostModel]) -> Calling:
    """Running totals over the months, oldest first; ``costs`` in force in each of them.

    A misfit is avoided where a question on a call found a true error. What each would have cost is
    not known: it is taken as half way between a shaft too long, which is shortened, and one too
    short, which is made again, since errors fall on both sides alike. An estimate, not a count.
    """
    rows, spent, saved = [], 0, 0
    for month in months:
        model = costs[month]
        calls = total(counts, Measure.CALL, month=month).n
        avoided = total(counts, Measure.ASKED_RIGHT, month=month).n
        spent += calls * cents(model.call)
        saved += avoided * misfit_cents(model)
        rows.append(CallMonth(month, calls, avoided, spent, saved))
    last = costs[months[-1]] if months else CostModel()
    return Calling(tuple(rows), cents(last.call), misfit_cents(last))


def misfit_cents(model: CostModel) -> int:
    """What a misfit of a shaft is taken to cost, in whole cents, a half rounded up."""
    return (cents(model.shaft_too_short) + cents(model.shaft_too_long) + 1) // 2


def cents(amount: Decimal) -> int:
    """Money in whole cents; the model keeps no smaller coin.

    >>> cents(Decimal("12.00"))
    1200
    """
    return int((amount * 100).to_integral_value(ROUND_HALF_UP))
