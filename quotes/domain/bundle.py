"""One quote for a yard's several boats: one freight, one total, a line for each boat. Pure."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from quotes.domain.exact_json import from_json
from quotes.domain.kept_price import PRICE
from quotes.domain.money import to_money
from quotes.domain.rates import Rates
from quotes.domain.tax import FREIGHT, NOWHERE, taxes

RULE = (
    "One freight for all that leave together: that of the longest or heaviest tube. Each shaft "
    "lies in a tube of its own, marked with its boat and side."
)
_ZERO = Decimal(0)


@dataclass(frozen=True, slots=True)
class Share:
    """What one quote brings into a bundle. ``freight_tax``: the part of its ``tax`` that is on its
    freight, by the rates it was priced with."""

    goods: Decimal
    freight: Decimal
    freight_words: str
    tax: Decimal
    freight_tax: Decimal = _ZERO


@dataclass(frozen=True, slots=True)
class BundleSums:
    """The sums of a bundle. ``saved``: what its quotes one by one would come to, less the total."""

    goods: Decimal
    freight: Decimal
    freight_words: str
    tax: Decimal
    total: Decimal
    saved: Decimal


def bundle_sums(shares: Sequence[Share]) -> BundleSums:
    """Add up several quotes with one freight, the dearest of theirs. Needs one share at least.

    Each quote's tax stays as it was rounded; the tax on the freights that are left out goes.

    >>> one, other = (Share(Decimal(600), Decimal(f), "", Decimal(42)) for f in (41, 68))
    >>> sums = bundle_sums([one, other])
    >>> sums.freight, sums.total, sums.saved
    (Decimal('68'), Decimal('1352'), Decimal('41'))
    """
    carries = max(shares, key=lambda share: share.freight)
    goods = sum((share.goods for share in shares), _ZERO)
    left_out = sum((share.freight_tax for share in shares), _ZERO) - carries.freight_tax
    tax = sum((share.tax for share in shares), _ZERO) - left_out
    total = goods + carries.freight + tax
    alone = sum((share.goods + share.freight + share.tax for share in shares), _ZERO)
    return BundleSums(goods, carries.freight, carries.freight_words, tax, total, alone - total)


def freight_tax(inputs: Mapping[str, Any], freight: Decimal) -> Decimal:
    """The tax on a quote's freight by what it was priced from; 0 where that was not kept."""
    facts = inputs.get(PRICE)
    if not facts:
        return _ZERO
    rates = from_json(Rates, facts["rates"])
    found = taxes({FREIGHT: freight}, rates.taxes, NOWHERE, rates.currency)
    return to_money(sum((one.amount for one in found), _ZERO), rates.currency)


# --- On paper ---------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class BundleLine:
    """One boat on the paper, in words: her side, the shaft's length, her own quote, its amount."""

    boat: str
    side: str
    length: str
    number: str
    amount: str


@dataclass(frozen=True, slots=True)
class BundleFacts:
    """Everything the paper of a bundle says, in its own language. ``sums``: label and amount."""

    shop: str
    number: str
    version: int
    issued: str
    valid_until: str
    customer: str
    job: str
    lines: tuple[BundleLine, ...]
    sums: tuple[tuple[str, str], ...]
    total: str
    notes: tuple[str, ...]
