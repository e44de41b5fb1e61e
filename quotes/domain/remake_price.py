"""What a remake costs the customer, by the terms: nothing, or material and freight alone.

Every line stands at its full price, and one or two lines below take off what is ours: so the
paper says what the work is worth and who bears it. Invented policy (quote terms).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Any

from quotes.domain.lines import Line, rounded, sum_line
from quotes.domain.order import Order
from quotes.domain.pricing import MINIMUM, Priced, summed
from quotes.domain.rates import Rates
from quotes.domain.tax import GOODS, NOWHERE, WORK, Place, kind_of
from quotes.domain.terms import DISCOUNT

REMAKE = "remake"  # under which it is kept with the quote
MATERIAL_IS_OURS, WORK_IS_OURS = "REMAKE", "SV-REMAKE"
TUBE = "SV-TUBE"
_ZERO = Decimal(0)


@dataclass(frozen=True, slots=True)
class Remake:
    """Of which quote, by its number; ``free``: all of it is at our cost, freight too."""

    of: str
    free: bool

    def as_json(self) -> dict[str, Any]:
        """As it is kept with the quote."""
        return {"of": self.of, "free": self.free}


def kept_remake(inputs: Mapping[str, Any]) -> Remake | None:
    """What was kept of it; None for a quote that makes nothing anew."""
    told = inputs.get(REMAKE)
    return Remake(str(told["of"]), bool(told["free"])) if told else None


def shaft_alone(order: Order) -> Order:
    """The same order without the parts the customer has already: a remake makes the shaft."""
    return replace(order, wants=frozenset({"shaft"}), parts=())


def remade(priced: Priced, remake: Remake, rates: Rates, place: Place = NOWHERE) -> Priced:
    """The same price with our part taken off. No discount and no minimum order on a remake.

    Free: goods, work and freight come to nothing. Else the work is ours, and material and freight
    are the customer's. What is missing stays missing.
    """
    lines = [line for line in priced.lines if line.code not in (DISCOUNT, MINIMUM)]
    lines += [rounded(line, rates.currency) for line in _credits(lines, remake)]
    freight = _ZERO if remake.free else priced.freight
    words = "Freight, at our cost" if remake.free else priced.freight_words
    return summed(lines, priced.missing, words, freight, rates, place)


def _credits(lines: list[Line], remake: Remake) -> Iterator[Line]:
    """What is ours. The tube goes with the freight, so who pays the freight pays the tube."""
    ours = [line for line in lines if remake.free or line.code != TUBE]
    goods, work = (
        sum((line.amount or _ZERO for line in ours if kind_of(line.code) == kind), _ZERO)
        for kind in (GOODS, WORK)
    )
    how = f"remake of {remake.of}"
    if remake.free and goods:
        words = f"Remake of {remake.of} at our cost: material"
        yield sum_line(MATERIAL_IS_OURS, words, -goods, how)
    if work:
        yield sum_line(WORK_IS_OURS, f"Remake of {remake.of} at our cost: work", -work, how)
