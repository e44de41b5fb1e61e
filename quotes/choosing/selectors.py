"""What was chosen for a request, and what can be chosen now."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import cached_property
from typing import Any

from catalog.domain.stock import Stock
from catalog.selectors import stock
from intake.domain.history import History
from intake.domain.limits import Limits
from intake.domain.reading import read_sheet
from intake.domain.sheet import SheetErrors
from intake.limit_sets.selectors import current_limits
from intake.models import SheetVersion
from intake.records.selectors import history_facts
from quotes import selectors
from quotes.choosing.models import Choice as ChoiceRow
from quotes.domain.alloys import AlloyColumn, alloy_columns, bars_for
from quotes.domain.choice import NO_CHOICE, Choice
from quotes.domain.chosen import key_words
from quotes.domain.margin import Judged, judge_alloy
from quotes.domain.options import Offer, offers
from quotes.domain.order import Order, read_order
from quotes.domain.rates import Rates
from quotes.domain.still_chosen import StillChosen, standing_alloy, still_chosen
from quotes.domain.tax import place_of
from quotes.models import Quote
from quotes.stock.selectors import left_over_as_quoted
from quotes.terms.selectors import terms_of


@dataclass(frozen=True)
class OnOffer:
    """All that can be chosen on one sheet, worked out when it is asked for.

    ``by_hand``: unit prices staff gave for what the catalogue lacks. ``standing``: what the quote
    that stands was made from, so that its own column says its own price.
    """

    sheet: SheetVersion
    stock: Stock
    rates: Rates
    limits: Limits
    by_hand: Mapping[str, Decimal]
    standing: Mapping[str, Any]

    @property
    def body(self) -> Mapping[str, Any]:
        body: Mapping[str, Any] = self.sheet.body
        return body

    @cached_property
    def order(self) -> Order:
        """The order as the sheet alone has it, with nothing chosen."""
        return read_order(self.body, self.sheet.outcome)

    @cached_property
    def history(self) -> History:
        """What else is known of this boat; nothing where the sheet is of older rules."""
        try:
            return history_facts(read_sheet(self.body), self.sheet.submission)
        except SheetErrors:
            return History()

    def offers(self, choice: Choice = NO_CHOICE) -> tuple[Offer, ...]:
        """Options and suggestions, those of the choice ticked."""
        return offers(
            read_order(self.body, self.sheet.outcome, choice),
            self.stock,
            self.rates,
            self.body,
            self.sheet.outcome,
            by_hand=self.by_hand,
            history=self.history,
            limits=self.limits,
        )

    def columns(self, choice: Choice = NO_CHOICE) -> tuple[AlloyColumn, ...]:
        """The metals side by side, the chosen one first, each with the options of the choice."""
        return alloy_columns(
            read_order(self.body, self.sheet.outcome, choice),
            self.body,
            self.sheet.outcome,
            self.stock,
            self.rates,
            terms_of(self.sheet.submission),
            place_of(self.body),
            by_hand=self.by_hand,
            history=self.history,
            limits=self.limits,
            left_over_of=lambda order: left_over_as_quoted(order, self.standing),
        )

    def judged(self, alloy: str) -> Judged:
        """What the checks say of a metal on this sheet; nothing without a shaft."""
        shaft = self.order.shaft
        if shaft is None:
            return Judged(None)
        return judge_alloy(alloy, shaft, self.body, self.stock, self.history, self.limits)

    def still(self, row: ChoiceRow) -> StillChosen:
        """What of an earlier choice holds on this sheet."""
        tickable = [offer.key for offer in self.offers() if offer.tickable]
        chosen = Choice(row.alloy, frozenset(row.options))
        return still_chosen(
            chosen, tickable, self._alloy(row), lambda key: key_words(key, self.stock)
        )

    def _alloy(self, row: ChoiceRow) -> str:
        shaft = self.order.shaft
        if not row.alloy or shaft is None:
            return ""
        return standing_alloy(
            row.alloy,
            shaft,
            row.sheet.body,
            self.body,
            bars_for(shaft, self.stock),
            self.judged(row.alloy),
            by_staff=row.by_id is not None,
        )


def on_offer(
    sheet: SheetVersion,
    by_hand: Mapping[str, Decimal] | None = None,
    standing: Mapping[str, Any] | None = None,
) -> OnOffer:
    """What can be chosen on a sheet at today's catalogue, rates and limits."""
    rates, limits = selectors.rates(), current_limits()
    return OnOffer(sheet, stock(), rates, limits, by_hand or {}, standing or {})


def on_offer_beside(sheet: SheetVersion, quote: Quote | None) -> OnOffer:
    """The same beside the newest quote, at the prices by hand that were given for it."""
    return on_offer(sheet, given_by_hand(quote), selectors.standing_inputs(quote))


def newest(submission_id: int) -> ChoiceRow | None:
    """The choice that was made last, with the sheet it was made on."""
    rows = ChoiceRow.objects.filter(submission_id=submission_id).order_by("-pk")
    return rows.select_related("sheet").first()


def choice_row(pk: int) -> ChoiceRow | None:
    """One choice, unless it is gone."""
    return ChoiceRow.objects.filter(pk=pk).select_related("submission", "sheet", "by").first()


def chosen_for(submission_id: int, shown: OnOffer | None = None) -> StillChosen:
    """The choice that stands for this request, and what of it no longer fits the current sheet."""
    row = newest(submission_id)
    if row is None:
        return StillChosen()
    return (shown or _on_current(submission_id)).still(row)


def choice_of(submission_id: int) -> Choice:
    """The choice that stands for this request; one query where nothing was ever chosen."""
    return chosen_for(submission_id).choice


def given_by_hand(quote: Quote | None) -> Mapping[str, Decimal]:
    """Unit prices that staff typed for a quote, by code."""
    told = quote.inputs.get("prices_by_hand") if quote else None
    return {str(code): Decimal(str(amount)) for code, amount in (told or {}).items()}


def _on_current(submission_id: int) -> OnOffer:
    """What can be chosen on the current sheet, at the prices by hand of the newest quote."""
    sheets = SheetVersion.objects.filter(submission_id=submission_id, is_current=True)
    sheet = sheets.select_related("submission").get()
    return on_offer_beside(sheet, selectors.latest_quote(sheet.submission))


def choices_handed_out(submissions: Sequence[int]) -> list[dict[str, Any]]:
    """What was chosen for these requests, by whom and from where."""
    rows = ChoiceRow.objects.filter(submission__in=submissions).order_by("pk")
    return [
        {"chosen": row.alloy, "options": row.options, "by": row.name, "from": row.told_from,
         "at": row.at}
        for row in rows
    ]  # fmt: skip
