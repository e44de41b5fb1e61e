"""The form below the price: metals side by side, options, what is worth doing at once."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from django.http import QueryDict

from intake.models import SheetVersion
from quotes.choosing.selectors import chosen_for, on_offer
from quotes.domain.alloys import NOT_ENGINEERED, VERIFY, AlloyColumn
from quotes.domain.lifecycle import QuoteStatus
from quotes.domain.money import money_text
from quotes.domain.options import OPTION, Offer
from quotes.models import Quote

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
    shown = on_offer(sheet, _by_hand(quote))
    standing = chosen_for(sheet.submission_id, shown)
    currency = shown.rates.currency
    sent = typed if typed is not None and MARK in typed else None
    alloy = sent.get("alloy", "") if sent else ""
    columns = shown.columns(standing.choice)
    known = alloy in {column.alloy for column in columns}
    alloys = tuple(
        ShownAlloy(
            column,
            column.alloy == alloy if known else column.chosen,
            column.by_staff if staff else column.choosable,
            currency,
        )
        for column in columns
    )
    ticks = frozenset(sent.getlist("option")) if sent else standing.choice.options
    offers = [
        ShownOffer(offer, offer.tickable and offer.key in ticks, currency)
        for offer in shown.offers(standing.choice)
    ]
    return ChoicePage(
        alloys,
        tuple(one for one in offers if one.offer.group == OPTION),
        tuple(one for one in offers if one.offer.group != OPTION),
        standing.dropped,
        quote.version if quote else 0,
    )


def _by_hand(quote: Quote | None) -> Mapping[str, Decimal]:
    told = quote.inputs.get("prices_by_hand") if quote else None
    return {str(code): Decimal(str(amount)) for code, amount in (told or {}).items()}


def _money(amount: Decimal | None, currency: str) -> str:
    return "" if amount is None else money_text(amount, currency)
