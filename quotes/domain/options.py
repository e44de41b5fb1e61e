"""What can be had besides, with its price: options, and what is worth doing while she is open."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Any

from catalog.domain.lengths import Length, mm
from catalog.domain.stock import Kind, Stock
from intake.domain.history import History
from intake.domain.limits import DEFAULT_LIMITS, Limits
from intake.domain.reading import read_sheet
from intake.domain.sheet import Sheet, SheetErrors
from quotes.domain.choice import LONG, NO_CHOICE
from quotes.domain.chosen import (
    CERTIFICATE,
    FIT,
    HEAT,
    PART,
    RUSH,
    RUSH_TEXT,
    SPARE,
    SPARE_WORD,
    chosen_lines,
    option_line,
    rush_line,
)
from quotes.domain.lines import Found, Line, plain, show
from quotes.domain.order import Order
from quotes.domain.pricing import price
from quotes.domain.rates import Rates
from quotes.domain.suggestions import Suggestion, boat_of, suggestions

__all__ = ["OPTION", "WHILE_OUT", "Offer", "chosen_lines", "offers"]

OPTION = "option"
WHILE_OUT = "while the shaft is out"
ASK_US = "ask us"
NO_HISTORY = History()


@dataclass(frozen=True, slots=True)
class Offer:
    """One thing that can be added to a quote, never added unasked.

    ``key`` is what a choice keeps. ``group`` is OPTION or WHILE_OUT. ``why`` says what on this
    boat makes it fit, ``how`` how the amount is made ("2 × 6.00"). ``amount`` is before tax, in
    the shop's currency; None where the catalogue has no price: "ask us", and cannot be ticked.
    """

    key: str
    group: str
    text: str
    why: str
    how: str
    amount: Decimal | None
    ticked: bool = False

    @property
    def tickable(self) -> bool:
        """Only what has a price can be chosen."""
        return self.amount is not None


def offers(
    order: Order,
    stock: Stock,
    rates: Rates,
    body: Mapping[str, Any],
    record: Mapping[str, Any],
    *,
    by_hand: Mapping[str, Decimal] | None = None,
    history: History = NO_HISTORY,
    limits: Limits = DEFAULT_LIMITS,
) -> tuple[Offer, ...]:
    """What can be added to this order; ticked where ``order.choice`` holds its key.

    ``body`` and ``record``: the sheet as typed and its stored outcome. ``history``: what else is
    known of this boat, as the checks had it (the other side's shaft). A rush costs by the labour
    of what is ticked now, so its amount moves with a fit that is ticked.
    """
    try:
        boat = boat_of(read_sheet(body), record, stock, limits)
    except SheetErrors:  # written under older rules: nothing is offered on a guess
        boat = None
    bare = price(replace(order, choice=NO_CHOICE), stock, rates, by_hand).lines
    options = [
        _offer(OPTION, one, order, stock, rates, bare) for one in _options(order, record, history)
    ]
    found = suggestions(order, boat) if boat else ()
    besides = [_offer(WHILE_OUT, one, order, stock, rates, bare) for one in found]
    return (*options, *_rush(order, stock, rates, bare), *besides)


def _options(order: Order, record: Mapping[str, Any], history: History) -> Iterator[Suggestion]:
    if order.shaft is not None:
        yield from _fit(order)
        yield from _left_long(order, record)
        yield from _heat(history)
        yield from _nuts(order)
    yield from _second_bearing(order)
    if order.shaft is not None:
        why = "Strengths are usual minima; the mill's paper says what your own bar has."
        yield Suggestion(CERTIFICATE, "Certificate of the bar", why)


def _fit(order: Order) -> Iterator[Suggestion]:
    """Only where it is not in the price: the coupling stays the customer's and is not sent."""
    if "coupling" not in order.wants and not order.coupling_comes:
        why = (
            "You keep your coupling. Sent to us, it is fitted to this shaft and faced on it, so "
            "that its face runs true."
        )
        yield Suggestion(FIT, "Fit your coupling and face it on the shaft", why)


def _left_long(order: Order, record: Mapping[str, Any]) -> Iterator[Suggestion]:
    """Only where the checks would send the shaft long."""
    told, shaft = (record.get("stack") or {}).get("trim_length"), order.shaft
    if not told or shaft is None:
        return
    extra = Length(mm(told).nm - shaft.length.nm)
    if extra.nm > 0:
        why = (
            "By these numbers the gap is not sure enough, and no question left would make it "
            "surer. A yard at the boat faces the coupling end to length."
        )
        text = f"Left {show(extra, shaft.system)} long at the coupling end, to be trimmed"
        yield Suggestion(f"{LONG}:{plain(Decimal(extra.mm_text))}", text, why)


def _heat(history: History) -> Iterator[Suggestion]:
    """Only where the other side's shaft is asked for as well."""
    sister = history.sister
    if sister is not None and "shaft" in sister.wants:
        why = f"The {_side(sister, history)} shaft is asked for too: both would be of one melt."
        yield Suggestion(HEAT, "Both shafts from one heat of bar", why)


def _side(sister: Sheet, history: History) -> str:
    return sister.station or history.sister_station or "other"


def _nuts(order: Order) -> Iterator[Suggestion]:
    shaft = order.shaft
    if shaft is not None and shaft.thread:
        why = (
            f"For the thread {shaft.thread} of this shaft, to lie aboard with the spare propeller."
        )
        code = f"NT-{shaft.thread.replace('/', '_')}"
        yield Suggestion(f"{SPARE}:1:{code}", "Spare nut set", why)


def _second_bearing(order: Order) -> Iterator[Suggestion]:
    ordered = [part for part in order.parts if part.kind == Kind.BEARING]
    if "bearing" not in order.wants or not ordered or ordered[0].quantity > 1:
        return
    why = "You ordered one. Short struts often hold a pair, one from each side: count them."
    yield Suggestion(f"{SPARE}:1:{ordered[0].code}", "Second bearing", why)


# --- With a price ------------------------------------------------------------------------


def _offer(
    group: str,
    one: Suggestion,
    order: Order,
    stock: Stock,
    rates: Rates,
    bare: Sequence[Found],
) -> Offer:
    """The amount is that of the very line which ticking it adds."""
    line = option_line(one.key, order, stock, rates, bare)
    if not isinstance(line, Line):
        return Offer(one.key, group, one.text, one.why, ASK_US, None)
    ticked = one.key in order.choice.options
    return Offer(one.key, group, _named(one, line), one.why, line.how, line.amount, ticked)


def _named(one: Suggestion, line: Line) -> str:
    """With the catalogue's own words where it is one of its parts."""
    if not one.key.startswith((PART, SPARE)):
        return one.text
    return f"{one.text}: {line.text.removeprefix(SPARE_WORD)}"


def _rush(order: Order, stock: Stock, rates: Rates, bare: Sequence[Found]) -> Iterator[Offer]:
    """A share of the labour as it stands; nothing to rush where there is no work."""
    if order.shaft is None:
        return
    rest = replace(order.choice, options=order.choice.options - {RUSH})
    chosen = chosen_lines(replace(order, choice=rest), stock, rates, bare)
    line = rush_line([*bare, *chosen], rates)
    if not isinstance(line, Line):
        yield Offer(RUSH, OPTION, RUSH_TEXT, _WHY_RUSH, ASK_US, None)
        return
    ticked = RUSH in order.choice.options
    yield Offer(RUSH, OPTION, line.text, _WHY_RUSH, line.how, line.amount, ticked)


_WHY_RUSH = "This shaft is made before its turn. It costs a part of the labour, ticked work too."
