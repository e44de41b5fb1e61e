"""What a bundle's pages show: a row for each boat, the sums, what is still to be answered."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

from django.utils import timezone

from quotes.bundles import selectors
from quotes.bundles.making import line_of, sums_of, sums_rows
from quotes.bundles.models import Bundle
from quotes.domain.bundle import RULE, BundleLine
from quotes.domain.lifecycle import QuoteStatus
from quotes.ending.agreed import statements
from quotes.models import Quote
from quotes.told import money


@dataclass(frozen=True, slots=True)
class TypedYes:
    """What somebody ticked and typed, to be shown again with what is wrong with it."""

    name: str = ""
    boats: Sequence[str] = ()
    confirmed: Sequence[str] = ()
    errors: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class BoatRow:
    """One boat of a bundle, with what is to be confirmed of her."""

    place: int
    quote: Quote
    line: BundleLine
    waits: bool
    typed: TypedYes

    @property
    def chosen(self) -> bool:
        """Whether she is ticked: at first all are, since that is what was quoted."""
        return str(self.quote.pk) in self.typed.boats or not self.typed.boats

    @property
    def error(self) -> str:
        """What is missing of her."""
        return self.typed.errors.get(f"boat-{self.quote.pk}", "")

    @property
    def statements(self) -> list[tuple[str, str, bool]]:
        """What is to be ticked: the box's value, words, ticked already."""
        return [
            (f"{self.quote.pk}.{short}", words, f"{self.quote.pk}.{short}" in self.typed.confirmed)
            for short, words in statements(self.quote.sheet).items()
        ]


@dataclass(frozen=True)
class BundlePage:
    """Everything the page says of one bundle."""

    bundle: Bundle
    quotes: Sequence[Quote]
    typed: TypedYes = TypedYes()
    rule: str = RULE

    @cached_property
    def rows(self) -> list[BoatRow]:
        """The boats in the order of the paper."""
        open_keys = {one.pk for one in selectors.waiting(self.quotes)}
        return [
            BoatRow(place, quote, line_of(quote), quote.pk in open_keys, self.typed)
            for place, quote in enumerate(self.quotes, start=1)
        ]

    @property
    def waiting(self) -> list[BoatRow]:
        """The boats that can be accepted now."""
        return [row for row in self.rows if row.waits]

    @property
    def wrong(self) -> list[BoatRow]:
        """The boats of which something is missing."""
        return [row for row in self.rows if row.error]

    @property
    def gone(self) -> list[Quote]:
        """Quotes that hold no more: the bundle needs a new version."""
        return selectors.gone(self.quotes)

    @property
    def sums(self) -> tuple[tuple[str, str], ...]:
        """As they were printed, line by line."""
        return sums_rows(sums_of(self.quotes), self.bundle.currency)

    @property
    def total(self) -> str:
        return money(self.bundle.total, self.bundle.currency)

    @property
    def accepted(self) -> list[Quote]:
        """What was accepted so far."""
        return [one for one in self.quotes if one.status == QuoteStatus.ACCEPTED]

    @property
    def accepted_total(self) -> str:
        """What the accepted ones come to together, with one freight."""
        return money(sums_of(self.accepted).total, self.bundle.currency) if self.accepted else ""

    @property
    def link_holds(self) -> bool:
        """Whether its private link still leads in."""
        return timezone.now() <= selectors.holds_until(self.bundle, self.quotes)
