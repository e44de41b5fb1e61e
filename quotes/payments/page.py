"""The page of one order's payments as data."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from functools import cached_property

from django.utils import timezone

from intake.models import Submission
from quotes.bundles.models import Bundle
from quotes.domain.money import money_text
from quotes.models import Quote
from quotes.payments import selectors
from quotes.payments.models import KINDS, Payment


@dataclass(frozen=True)
class PaymentsPage:
    """What was paid for the newest quote of a request, and a form for what comes in."""

    submission: Submission
    quote: Quote
    nonce: str
    typed: Mapping[str, str] = field(default_factory=dict)
    errors: Mapping[str, str] = field(default_factory=dict)

    @cached_property
    def bundle(self) -> Bundle | None:
        """The bundle the quote is in, which is paid for as one."""
        return selectors.bundle_of(self.quote)

    @cached_property
    def rows(self) -> list[Payment]:
        """Everything written down, the oldest first."""
        return selectors.payments_of(self.quote)

    @property
    def sums(self) -> list[tuple[str, str]]:
        """What it costs, what was paid, what is still to come."""
        whole = self.bundle or self.quote
        asked, came = self._deposit
        rows = [(f"Total of {whole.number}", whole.total), ("Paid so far", came)]
        if asked:
            rows += [("Deposit asked", asked), ("Deposit still to come", max(asked - came, _ZERO))]
        rows.append(("Open", whole.total - came))
        return [(words, money_text(amount, self.quote.currency)) for words, amount in rows]

    @cached_property
    def _deposit(self) -> tuple[Decimal, Decimal]:
        """What is asked, and what came."""
        return selectors.asked_and_came(self.quote, self.bundle)

    @property
    def kinds(self) -> list[tuple[str, str, bool]]:
        """Kind, words, chosen: a deposit while one is to come, else a payment."""
        asked, came = self._deposit
        usual = "deposit" if asked > came else "payment"
        chosen = self.typed.get("kind", usual)
        return [(kind, words, kind == chosen) for kind, words in KINDS]

    @property
    def day(self) -> str:
        """The day as typed, or today."""
        return self.typed.get("day", timezone.localdate().isoformat())

    @property
    def wrong(self) -> list[dict[str, str]]:
        """What must be put right, for the list above the form."""
        return [
            {"id": f"pay-{box}", "label": LABELS[box], "message": words}
            for box, words in self.errors.items()
        ]


_ZERO = Decimal(0)
LABELS = {
    "kind": "What it is",
    "amount": "Amount",
    "day": "Day",
    "how": "How it came",
    "note": "Note",
}
