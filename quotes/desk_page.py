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
from quotes.making import price_sheet
from quotes.models import Quote


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
    def may_issue(self) -> bool:
        return self.standing is None and Status.QUOTED in ALLOWED[Status(self.submission.status)]

    @cached_property
    def price(self) -> price_show.ShownPrice:
        """The standing quote, or the price at today's catalogue."""
        if self.standing:
            return price_show.of_quote(self.standing)
        return price_show.of_priced(price_sheet(self.sheet, {}))

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
