"""Money that came in or went back, written down by hand. No card is ever taken down here."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

_ZERO = Decimal(0)


class Kind(StrEnum):
    """What a payment is: asked before we cut, anything else that came in, or what went back."""

    DEPOSIT = "deposit"
    PAYMENT = "payment"
    REFUND = "refund"


class PaymentErrors(ValueError):
    """A payment cannot be written down as it was typed. ``errors``: box -> sentence."""

    def __init__(self, errors: Mapping[str, str]) -> None:
        super().__init__(" ".join(dict.fromkeys(errors.values())))
        self.errors = dict(errors)


# --- No card numbers ---------------------------------------------------------------------

_DIGITS = re.compile(r"\d(?:[ .-]?\d){12,}")
_LEAST, _MOST = 13, 19
NO_CARDS = (
    "This looks like the number of a payment card. Please leave it out: we keep none, and what "
    "is written here is never taken away again."
)


def looks_like_a_card(text: str) -> bool:
    """Whether a text holds what may be a payment card's number: 13 to 19 digits, in one run or in
    groups, whose check digit is right.

    Source: ISO/IEC 7812-1, annex B (the Luhn formula); lengths from memory.

    >>> looks_like_a_card("paid, 4000 0000 0000 0002"), looks_like_a_card("4000 0000 0000 0003")
    (True, False)
    """
    for run in _DIGITS.findall(text):
        groups = re.findall(r"\d+", run)
        starts = [(a, b) for a in range(len(groups)) for b in range(a + 1, len(groups) + 1)]
        joined = ("".join(groups[a:b]) for a, b in starts)
        if any(_LEAST <= len(digits) <= _MOST and checks_out(digits) for digits in joined):
            return True
    return False


def checks_out(digits: str) -> bool:
    """The Luhn formula: every second digit from the right doubled, the digits summed, by ten.

    >>> checks_out("79927398713"), checks_out("79927398710")
    (True, False)
    """
    total = 0
    for at, digit in enumerate(reversed(digits)):
        doubled = int(digit) * (1 + at % 2)
        total += doubled - 9 * (doubled > 9)
    return total % 10 == 0


# --- Sums --------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class Version:
    """One version of a request's quote: ``paid`` is what was written down against it."""

    quote: int
    version: int
    replaced: bool
    invoiced: bool
    paid: Decimal = _ZERO


def signed(kind: str, amount: Decimal) -> Decimal:
    """What a payment adds to what was paid."""
    return -amount if kind == Kind.REFUND else amount


def counts_for(wanted: Version, versions: Iterable[Version]) -> Decimal:
    """What was paid for one version: its own, and what was paid for those it has replaced.

    What was paid up to a version that was invoiced belongs to that invoice.

    >>> first = Version(1, 1, replaced=True, invoiced=False, paid=Decimal(300))
    >>> counts_for(Version(2, 2, replaced=False, invoiced=False), [first])
    Decimal('300')
    """
    older = [one for one in versions if one.version < wanted.version]
    settled = max((one.version for one in older if one.invoiced), default=0)
    before = (one.paid for one in older if one.replaced and one.version > settled)
    return sum(before, _ZERO) + wanted.paid


def from_pool(pool: Decimal, needs: Iterable[tuple[int, Decimal]]) -> dict[int, Decimal]:
    """What was paid for several invoices together, given to them one after another, as much as
    each needs; what is left over goes to the last.

    >>> from_pool(Decimal(100), [(7, Decimal(60)), (8, Decimal(60))])
    {7: Decimal('60'), 8: Decimal('40')}
    """
    given: dict[int, Decimal] = {}
    for key, need in needs:
        given[key] = min(pool, max(need, _ZERO)) if pool > 0 else _ZERO
        pool -= given[key]
    if given and pool:
        given[key] += pool
    return given
