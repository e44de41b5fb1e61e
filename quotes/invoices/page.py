"""What the pages of invoices show, as data."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

from intake.models import Submission
from quotes.bundles.models import Bundle
from quotes.domain.invoice import CREDIT, INVOICE, Bill, left_of
from quotes.domain.money import money_text
from quotes.invoices import making, selectors
from quotes.invoices.billing import bill_and_paid
from quotes.invoices.models import Invoice
from quotes.models import Quote
from quotes.payments.selectors import bundle_of


@dataclass(frozen=True, slots=True)
class Boat:
    """One quote that may stand on the invoice: ``why_not`` says what keeps it off."""

    quote: Quote
    why_not: str
    ticked: bool


@dataclass(frozen=True)
class DraftPage:
    """An invoice as it would be issued now. A draft is no invoice: nothing of it is stored."""

    submission: Submission
    quote: Quote
    nonce: str
    typed_buyer: str | None = None
    ticked: Sequence[int] | None = None
    error: str = ""

    @cached_property
    def bundle(self) -> Bundle | None:
        """The bundle the quote is in, which is invoiced together as far as it has left us."""
        return bundle_of(self.quote)

    @property
    def buyer(self) -> str:
        """Who is to pay: as typed, else as far as the request says."""
        return making.buyer(self.submission) if self.typed_buyer is None else self.typed_buyer

    @cached_property
    def boats(self) -> list[Boat]:
        """The quotes to choose from: one, or all of the bundle."""
        quotes = selectors.members_of(self.bundle) if self.bundle else [self.quote]
        done, left = selectors.invoiced_already(quotes), selectors.have_left(quotes)
        return [self._boat(one, done.get(one.pk, ""), one.pk in left) for one in quotes]

    def _boat(self, quote: Quote, invoice: str, has_left: bool) -> Boat:
        why_not = ""
        if invoice:
            why_not = f"invoiced with {invoice}"
        elif quote.status != "accepted":
            why_not = "not accepted"
        elif not has_left:
            why_not = "still with us"
        ticked = not why_not and (self.ticked is None or quote.pk in self.ticked)
        return Boat(quote, why_not, ticked)

    @property
    def chosen(self) -> list[Quote]:
        """What would stand on it."""
        return [boat.quote for boat in self.boats if boat.ticked]

    @cached_property
    def sums(self) -> list[tuple[str, str]]:
        """What the chosen come to, what is taken off, and what is left to pay."""
        if not self.chosen:
            return []
        bill, paid = bill_and_paid(self.chosen, self.bundle)
        rows = [("Before tax", bill.net), *((tax.words, tax.amount) for tax in bill.taxes)]
        rows += [("Total", bill.total), ("Paid so far", -paid), ("To pay", bill.total - paid)]
        return [(words, money_text(amount, self.quote.currency)) for words, amount in rows]


@dataclass(frozen=True, slots=True)
class CreditLine:
    """One line of an invoice with the box for what is credited of it."""

    place: int
    text: str
    amount: str
    left: str
    typed: str
    error: str

    @property
    def id(self) -> str:
        """The box's own."""
        return f"line-{self.place}"


@dataclass(frozen=True)
class InvoicePage:
    """One invoice or credit note, and the form that credits it."""

    invoice: Invoice
    nonce: str
    typed: Mapping[str, str] = field(default_factory=dict)
    errors: Mapping[str, str] = field(default_factory=dict)

    @property
    def is_credit(self) -> bool:
        """Whether it is a credit note."""
        return self.invoice.kind == CREDIT

    @cached_property
    def bill(self) -> Bill:
        """Its lines and taxes."""
        return making.bill_again(self.invoice)

    @cached_property
    def standing(self) -> selectors.Standing:
        """Where its money stands."""
        return selectors.standing_of([self.invoice])[0]

    @cached_property
    def notes(self) -> list[Invoice]:
        """Its credit notes."""
        return selectors.credit_notes_of(self.invoice)

    @property
    def about(self) -> list[tuple[str, str]]:
        """Each quote in words, with the reference of its request."""
        return [(making.about_words(one), one["reference"]) for one in self.invoice.about]

    @property
    def can_credit(self) -> bool:
        """An invoice of which something is left."""
        return self.invoice.kind == INVOICE and self.standing.credited < self.invoice.total

    @cached_property
    def credit_lines(self) -> list[CreditLine]:
        """Lines with what is left of each."""
        earlier = [making.credited(note) for note in self.notes]
        left, currency = left_of(self.bill, earlier), self.invoice.currency
        return [
            CreditLine(
                place,
                line.text,
                money_text(line.amount, currency),
                money_text(left[place], currency),
                self.typed.get(f"line.{place}", ""),
                self.errors.get(f"line.{place}", ""),
            )
            for place, line in enumerate(self.bill.lines)
        ]

    @property
    def wrong(self) -> list[dict[str, str]]:
        """What must be put right, for the list above the form."""
        boxes = {f"line.{line.place}": (line.id, line.text) for line in self.credit_lines}
        boxes["reason"] = ("credit-reason", "Reason")
        found = [(*boxes.get(box, ("", "")), words) for box, words in self.errors.items()]
        return [{"id": id, "label": label, "message": words} for id, label, words in found]
