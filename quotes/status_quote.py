"""The quote's side of the customer's page: its price, its versions, what is answered to it."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

from django.http import QueryDict
from django.utils import timezone

from intake.domain.lifecycle import Status
from intake.models import SheetVersion, Submission
from quotes import price_show, services
from quotes.cases.selectors import is_put_right
from quotes.domain.lifecycle import QuoteStatus
from quotes.models import Quote
from quotes.outcomes.form import FitForm
from quotes.outcomes.selectors import asked_now, has_gap
from quotes.sending.models import Shipment
from quotes.sending.selectors import shipment_of
from quotes.shop.selectors import stage_of
from quotes.status_words import IN_THE_SHOP, PUT_RIGHT, WHYS, Words
from quotes.told import deposit_words, leaves_words, sent_words


@dataclass(frozen=True, slots=True)
class Typed:
    """What somebody typed into an answer to the quote, to be shown again with its errors."""

    name: str = ""
    confirmed: Sequence[str] = ()
    reason: str = ""
    again: Mapping[str, str] = field(default_factory=dict)
    errors: Mapping[str, str] = field(default_factory=dict)
    answers: QueryDict = field(default_factory=lambda: QueryDict(""))
    answer_errors: Mapping[str, Sequence[str]] = field(default_factory=dict)
    why: str = ""
    fit: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True)
class QuoteSide:
    """One submission with all versions of its quote, the newest first."""

    submission: Submission
    sheet: SheetVersion
    quotes: Sequence[Quote]
    typed: Typed = Typed()

    @property
    def quote(self) -> Quote | None:
        """The newest version, whatever became of it."""
        return self.quotes[0] if self.quotes else None

    @property
    def status(self) -> Status:
        return Status(self.submission.status)

    @property
    def is_draft(self) -> bool:
        return self.quote is not None and self.quote.status == QuoteStatus.DRAFTED

    @property
    def older(self) -> list[Quote]:
        """The versions before the one that is shown, of which there is a paper."""
        return [one for one in self.quotes if one.issued_at and one != self.shown_quote]

    @property
    def void(self) -> Quote | None:
        """The version that was accepted and holds no more, while nothing newer is accepted."""
        accepted = next((one for one in self.quotes if one.accepted_at), None)
        return accepted if accepted and accepted.is_void else None

    @cached_property
    def order(self) -> Quote | None:
        """The accepted quote that stands."""
        quote = self.quote
        return quote if quote and quote.status == QuoteStatus.ACCEPTED else None

    @cached_property
    def shipment(self) -> Shipment | None:
        """How the order left us; None while it is here."""
        return shipment_of(self.order) if self.order else None

    @cached_property
    def how_far(self) -> Words:
        """Where the order is, in a sentence; "" where the status says all there is."""
        if self.order is None or self.status != Status.ACCEPTED:
            return ""
        if self.shipment is None:
            return IN_THE_SHOP.get(stage_of(self.order), "")
        return PUT_RIGHT if is_put_right(self.submission) else sent_words(self.order, self.shipment)

    @cached_property
    def leaves(self) -> str:
        """Between which days it leaves us, in words; "" where nothing is promised."""
        shown = None if self.shipment else self.shown_quote
        return leaves_words(shown) if shown and (shown.accepted_at or self.can_answer) else ""

    @cached_property
    def deposit(self) -> str:
        """What is to be paid first, in words; "" where nothing is, the quote is
        closed or the parts have left us: then the invoice says what is open."""
        shown = None if self.shipment else self.shown_quote
        is_on = shown and (self.can_answer or shown.status == QuoteStatus.ACCEPTED)
        return deposit_words(shown) if shown and is_on else ""

    @property
    def shown_quote(self) -> Quote | None:
        """The latest quote, unless a newer sheet has put it aside."""
        aside = self.quote is None or self.quote.status == QuoteStatus.REPLACED
        return None if aside else self.quote

    @cached_property
    def price(self) -> price_show.ShownPrice | None:
        return price_show.of_quote(self.shown_quote) if self.shown_quote else None

    @property
    def can_answer(self) -> bool:
        """The quote waits for a yes or no, and its time has not run out."""
        quote = self.quote
        return (
            quote is not None
            and quote.status == QuoteStatus.ISSUED
            and self.status == Status.QUOTED
            and quote.valid_until is not None
            and quote.valid_until >= timezone.localdate()
        )

    @property
    def run_out(self) -> bool:
        """Issued, not answered, and past its day."""
        issued = self.quote is not None and self.quote.status == QuoteStatus.ISSUED
        return issued and self.status == Status.QUOTED and not self.can_answer

    @property
    def statements(self) -> list[tuple[str, str, bool]]:
        """What to tick: short name, words, ticked already."""
        if self.quote is None:
            return []
        wanted = services.statements(self.sheet)
        return [(short, words, short in self.typed.confirmed) for short, words in wanted.items()]

    @cached_property
    def fit(self) -> FitForm | None:
        """The form that asks whether it fitted, once it is time."""
        if self.quote is None or self.quote.status != QuoteStatus.ACCEPTED:
            return None
        after = asked_now(self.quote)
        if not after:
            return None
        return FitForm(after, self.typed.fit, self.typed.errors, has_gap=has_gap(self.quote))

    @property
    def whys(self) -> list[tuple[str, Words, bool]]:
        """Reasons to decline: code, words, chosen."""
        return [(code, words, code == self.typed.why) for code, words in WHYS]

    @property
    def open_statement(self) -> tuple[str, str] | None:
        """The first line that is not ticked yet, and the sentence about it."""
        errors = self.typed.errors
        return next(
            ((short, errors[short]) for short, _w, _t in self.statements if short in errors), None
        )
