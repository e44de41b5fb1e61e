"""What the counter sees before a quote goes out by hand."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

from intake.domain.lifecycle import ALLOWED, Status
from intake.models import SheetVersion, Submission
from quotes import price_show
from quotes.domain.lifecycle import QuoteStatus
from quotes.domain.order import read_order
from quotes.domain.words import both
from quotes.ending.agreed import statements
from quotes.links.models import Mail
from quotes.links.selectors import may_have_left
from quotes.making import price_sheet
from quotes.models import Quote
from quotes.selectors import offer_mail, quotes_of


@dataclass(frozen=True)
class MissingBox:
    """One price the catalogue lacks, with the box to type it into."""

    code: str
    text: str
    why: str
    unit: str
    typed: str
    error: str

    @property
    def id(self) -> str:
        return "price-" + "".join(sign if sign.isalnum() else "-" for sign in self.code)


@dataclass(frozen=True)
class DeskQuote:
    """One submission's quote as it stands, or as it would be issued now."""

    submission: Submission
    sheet: SheetVersion
    quote: Quote | None
    typed: Mapping[str, Any] = field(default_factory=dict)
    errors: Mapping[str, str] = field(default_factory=dict)

    @property
    def standing(self) -> Quote | None:
        """The quote of this sheet that has gone out and holds."""
        quote = self.quote
        if quote is None or quote.sheet_id != self.sheet.pk:
            return None
        return quote if quote.status in (QuoteStatus.ISSUED, QuoteStatus.ACCEPTED) else None

    @property
    def waits(self) -> bool:
        """The standing quote still waits for an answer."""
        standing = self.standing
        return standing is not None and standing.status == QuoteStatus.ISSUED

    @property
    def is_accepted(self) -> bool:
        """The standing quote is an order."""
        return self.standing is not None and not self.waits

    @property
    def statements(self) -> list[tuple[str, str, bool]]:
        """What is to be read out: short name, words, ticked already."""
        ticked = self.typed.get("confirm", ())
        return [(short, text, short in ticked) for short, text in statements(self.sheet).items()]

    @cached_property
    def older(self) -> list[Quote]:
        """Versions before the standing one, of which there is a paper."""
        return [one for one in quotes_of(self.submission) if one.issued_at and one != self.standing]

    @cached_property
    def mail(self) -> Mail | None:
        """The mail with which the standing quote went out."""
        return offer_mail(self.standing) if self.standing else None

    @property
    def mail_may_have_left(self) -> bool:
        """Nobody knows whether that mail has arrived: the desk asks, and may send it again."""
        return self.mail is not None and may_have_left(self.mail)

    @property
    def may_issue(self) -> bool:
        return self.standing is None and Status.QUOTED in ALLOWED[Status(self.submission.status)]

    @cached_property
    def price(self) -> price_show.ShownPrice:
        """The standing quote, or the price at today's catalogue."""
        if self.standing:
            return price_show.of_quote(self.standing)
        return price_show.of_priced(price_sheet(self.sheet, {}))

    @property
    def length(self) -> str:
        """What is cut, in both systems; "" where a question is open or no shaft is wanted."""
        if self.sheet.verdict != "release":
            return ""
        order = read_order(self.sheet.body, self.sheet.outcome)
        return both(order.shaft.length, order.shaft.system) if order.shaft else ""

    @property
    def boxes(self) -> list[MissingBox]:
        units = {line.text: line.quantity for line in self.price.lines}
        return [
            MissingBox(
                missing["code"],
                missing["text"],
                missing["why"],
                units.get(missing["text"], ""),
                str(self.typed.get(f"price.{missing['code']}", "")),
                self.errors.get(missing["code"], ""),
            )
            for missing in self.price.missing
        ]

    @property
    def error(self) -> str:
        """A sentence that belongs to no box."""
        return self.errors.get("", "")
