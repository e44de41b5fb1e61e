"""What a bar should cost by its size and metal: a simple model to notice a wrong row by."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal
from statistics import median

from catalog.domain.lengths import Length
from catalog.domain.stock import Kind, StockPart
from quotes.domain.freight import inch_amount
from quotes.domain.order import Shaft, same_metal

ENOUGH = 20  # quotes of one metal from which the model goes by them alone; invented


@dataclass(frozen=True, slots=True)
class BarPrice:
    """One price of a bar: what an inch or a millimetre (``per``) of it cost."""

    alloy: str
    diameter: Length
    price: Decimal
    per: str


def of_catalogue(parts: Iterable[StockPart]) -> list[BarPrice]:
    """The catalogue's own rows of bars."""
    return [
        BarPrice(part.alloy, part.diameter, part.price, part.per)
        for part in parts
        if part.kind == Kind.BAR and part.diameter and part.alloy
    ]


def expected(
    shaft: Shaft, charged: Length, quoted: Sequence[BarPrice], listed: Sequence[BarPrice]
) -> Decimal | None:
    """What so much of the bar should come to; None where nothing of its metal is known.

    A bar goes by its weight: price per length = a rate of its metal × D². The rate is the median
    over what was quoted of that metal in the last year, or, with fewer than ``ENOUGH`` quotes,
    over the rows of the catalogue; a median, so that one wrong row does not excuse itself.

    >>> from catalog.domain.lengths import inches
    >>> bar = BarPrice("S20910", inches(1), Decimal("3.60"), "in")
    >>> shaft = Shaft("inch", inches(2), "S20910", "", inches(9), inches(9), "straight", "", "")
    >>> expected(shaft, inches(10), [], [bar])
    Decimal('144.00')
    """
    names = same_metal(shaft.alloy)
    for known, least in ((quoted, ENOUGH), (listed, 1)):
        rates = [_rate(one) for one in known if one.alloy in names]
        if len(rates) >= least:
            return median(rates) * inch_amount(shaft.diameter) ** 2 * inch_amount(charged)
    return None


def _rate(one: BarPrice) -> Decimal:
    """Price per cubic inch of the square round the bar."""
    per_inch = one.price * Decimal("25.4") if one.per == "mm" else one.price
    return per_inch / inch_amount(one.diameter) ** 2
