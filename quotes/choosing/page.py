"""The form below the price: metals side by side, options, what is worth doing at once."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import Decimal

from django.http import QueryDict

from intake.models import SheetVersion
from quotes.choosing.selectors import OnOffer, chosen_for, on_offer_beside
from quotes.domain.alloys import NOT_ENGINEERED, VERIFY, AlloyColumn
from quotes.domain.choice import Choice
from quotes.domain.lifecycle import QuoteStatus
from quotes.domain.options import OPTION, Offer
from quotes.models import Quote
from quotes.told import money

_CLOSED = (QuoteStatus.ACCEPTED, QuoteStatus.CANCELLED)
# The form sends this along, so that what was ticked can be told from a form of another kind.
MARK = "choose"


@dataclass(frozen=True, slots=True)
class ShownAlloy:
    """One metal as a row: its facts, whether it is the one in the form, whether it may be."""

    column: AlloyColumn
    ticked: bool
    may: bool
    currency: str

    @property
    def total(self) -> str:
        """The whole price, or "" while a part of it is to come."""
        return _money(self.column.total, self.currency)

    @property
    def note(self) -> str:
        """What is said of its strength besides what is said of all of them below the table."""
        return self.column.sure.removeprefix(VERIFY).strip()

    @property
    def difference(self) -> str:
        """More or less than the chosen one, with its sign; "" for the chosen one itself."""
        amount = self.column.difference
        if self.column.chosen or amount is None:
            return ""
        return f"{'+' if amount >= 0 else '−'}{_money(abs(amount), self.currency)}"


@dataclass(frozen=True, slots=True)
class ShownOffer:
    """One option with its box."""

    offer: Offer
    ticked: bool
    currency: str

    @property
    def amount(self) -> str:
        """Its price before tax, or "" where it is to be asked for."""
        return _money(self.offer.amount, self.currency)


@dataclass(frozen=True, slots=True)
class ChoicePage:
    """What can be chosen, and what has been dropped from an earlier choice."""

    alloys: tuple[ShownAlloy, ...]
    options: tuple[ShownOffer, ...]
    besides: tuple[ShownOffer, ...]
    dropped: tuple[str, ...]
    version: int
    mark: str = MARK
    verify: str = VERIFY
    caution: str = NOT_ENGINEERED

    @property
    def count(self) -> int:
        """How many things could be added."""
        return len(self.options) + len(self.besides)

    @property
    def open(self) -> bool:
        """Whether what could be added is unfolded: where something of it is ticked."""
        return any(one.ticked for one in (*self.options, *self.besides))

    @property
    def anything(self) -> bool:
        """Whether there is anything to choose."""
        return len(self.alloys) > 1 or any(
            shown.offer.tickable for shown in (*self.options, *self.besides)
        )


def choice_page(
    sheet: SheetVersion, quote: Quote | None, typed: QueryDict | None, *, staff: bool
) -> ChoicePage | None:
    """The form as it stands, or as it was sent. None once the quote is agreed on."""
    if quote is not None and quote.status in _CLOSED:
        return None
    shown = on_offer_beside(sheet, quote)
    standing = chosen_for(sheet.submission_id, shown)
    sent = typed if typed is not None and MARK in typed else None
    offers = _offers(shown, standing.choice, sent)
    return ChoicePage(
        _alloys(shown, standing.choice, sent, staff=staff),
        tuple(one for one in offers if one.offer.group == OPTION),
        tuple(one for one in offers if one.offer.group != OPTION),
        standing.dropped,
        quote.version if quote else 0,
    )


def _alloys(
    shown: OnOffer, choice: Choice, sent: QueryDict | None, *, staff: bool
) -> tuple[ShownAlloy, ...]:
    """The metal that was sent is ticked; else the one of the quote."""
    columns = shown.columns(choice)
    alloy = sent.get("alloy", "") if sent else ""
    known = alloy in {column.alloy for column in columns}
    return tuple(
        ShownAlloy(
            column,
            column.alloy == alloy if known else column.chosen,
            column.by_staff if staff else column.choosable,
            shown.rates.currency,
        )
        for column in columns
    )


def _offers(shown: OnOffer, choice: Choice, sent: QueryDict | None) -> list[ShownOffer]:
    ticks = frozenset(sent.getlist("option")) if sent else choice.options
    return [
        ShownOffer(offer, offer.tickable and offer.key in ticks, shown.rates.currency)
        for offer in shown.offers(choice)
    ]


def _money(amount: Decimal | None, currency: str) -> str:
    return "" if amount is None else money(amount, currency)
