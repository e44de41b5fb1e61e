"""From one quote and its sheet to what the paper says. Pure: dates come in as words."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from catalog.domain.lengths import Length, mm
from intake.domain.drawing import gap_picture
from intake.domain.drawing_words import ENGLISH, Words
from intake.domain.reading import read_sheet
from intake.domain.sheet import Reading, Sheet
from quotes.domain.besides import (
    NOTHING_BESIDES,
    Besides,
    alloy_facts,
    alloy_notes,
    option_facts,
)
from quotes.domain.facts import LineFact, Measured, QuoteFacts
from quotes.domain.lead import lead_words, needed_day
from quotes.domain.money import money_text, to_money
from quotes.domain.order import Order, read_order
from quotes.domain.paper_drawing import scale_of, scaled_drawing
from quotes.domain.paper_words import (
    deliver_to,
    delivery_words,
    money_terms,
    needed_words,
)
from quotes.domain.rates import Rates
from quotes.domain.tax import TaxSum, percent, tax_rows
from quotes.domain.texts import (
    CAUTIONS,
    LABELS,
    LIMITS,
    METHODS,
    OFFERS,
    ROLES,
    TERMS,
    TERMS_OF_PARTS,
    measured_by,
    to_confirm,
)
from quotes.domain.words import both, shaft_facts

TO_COME = "to come"


@dataclass(frozen=True, slots=True)
class QuoteRow:
    """The stored quote as plain values. ``lines`` as stored; sums are Decimal.

    ``taxes``: each rate with what it is taken of, as it was priced.
    """

    number: str
    version: int
    issued: str
    valid_until: str
    lines: Sequence[Mapping[str, Any]]
    goods: Decimal
    freight: Decimal
    freight_words: str
    tax: Decimal
    total: Decimal
    reference: str
    draft: bool = False
    taxes: tuple[TaxSum, ...] = ()


def quote_facts(
    row: QuoteRow,
    body: Mapping[str, Any],
    record: Mapping[str, Any],
    rates: Rates,
    words: Words = ENGLISH,
    besides: Besides = NOTHING_BESIDES,
    order: Order | None = None,
) -> QuoteFacts:
    """Everything the paper says. ``words``: those of the drawings, in another language; ``order``:
    as it was priced, where that is not all that the sheet asks for."""
    sheet = read_sheet(body)
    order = order or read_order(body, record, besides.choice)
    stack = record.get("stack") or {}
    drawn = bool(record.get("shaft") and stack)
    answers = body.get("answers") or {}
    money = rates.currency, besides.language
    return QuoteFacts(
        shop=rates.name,
        number=row.number,
        version=row.version,
        issued=row.issued,
        valid_until=row.valid_until,
        currency=rates.currency,
        customer=sheet.contact.name,
        role=ROLES.get(sheet.contact.role, ""),
        boat=boat_words(sheet),
        boat_named=bool(sheet.boat_name),
        job=sheet.job,
        reference=row.reference,
        measured_by=measured_by(body),
        drawing=scaled_drawing(stack, words) if drawn else None,
        scale=scale_words(stack) if drawn else "",
        gap_drawing=gap_picture(stack, words) if drawn and stack.get("predicted_gap") else None,
        shaft=shaft_facts(order.shaft, stack) if order.shaft else None,
        notes=notes(record),
        readings=tuple(measured(sheet, stack)),
        photos=besides.photos,
        lines=tuple(line_fact(line, *money) for line in row.lines),
        sums=sums(row.goods, row.freight_words, row.freight, row.tax, rates, row.taxes, *money),
        total=money_text(row.total, *money),
        alloys=alloy_facts(besides.alloys, *money),
        alloy_notes=alloy_notes(besides.alloys),
        options=option_facts(besides.offers, *money),
        lead=lead_words(order, record, rates, besides.leaves, besides.say_day, needed_day(answers)),
        needed=tuple(needed_words(answers, besides.say_day)),
        delivery=tuple(delivery_words(order, answers, rates)),
        deliver_to=deliver_to(answers),
        offers=OFFERS if order.shaft else "",
        terms=TERMS if order.shaft else TERMS_OF_PARTS,
        money_terms=tuple(money_terms(row.total, besides.terms, rates, besides.language)),
        confirm=tuple(to_confirm(order.shaft is not None, sheet.readings, sheet.station).values()),
        cautions=CAUTIONS,
        limits=LIMITS,
        address=besides.address,
        draft=row.draft,
    )


def scale_words(stack: Mapping[str, Any]) -> str:
    """The scale that the drawing is printed at, as near as makes sense."""
    return f"to one scale, about 1 : {scale_of(stack):.0f}"


def notes(record: Mapping[str, Any]) -> tuple[str, ...]:
    """What the checks noted and the customer should know: printed, never held back."""
    found = record.get("findings") or ()
    return tuple(str(one["message"]) for one in found if one["severity"] == "note")


def boat_words(sheet: Sheet) -> str:
    """The boat and which shaft of it."""
    station = {"single": "single shaft", "": ""}.get(sheet.station, f"{sheet.station} shaft")
    return ", ".join(filter(None, [sheet.boat_name, station]))


def measured(sheet: Sheet, stack: Mapping[str, Any]) -> Iterator[Measured]:
    """The customer's own numbers, then what we worked out or took for granted."""
    for reading in sheet.readings.values():
        yield Measured(
            LABELS.get(reading.slug, reading.slug),
            _typed(reading),
            both(reading.length, reading.unit),
            METHODS.get(reading.method, reading.method),
            "measured",
        )
    yield from _bearing_length(sheet)
    for slug in sheet.states:
        label = LABELS.get(slug)
        if label and sheet.cannot(slug):
            yield Measured(label, "—", "cannot be measured", "", "not measured")
    yield from _assumed(sheet, stack)


def _bearing_length(sheet: Sheet) -> Iterator[Measured]:
    """The one length that is asked together with a count."""
    length, count = (sheet.part("bearing_length", name) for name in ("text", "count"))
    if not isinstance(length, Length):
        return
    unit = sheet.tape_unit or "in"
    typed = length.show(unit) + (f", {count} of them" if count and count > 1 else "")
    yield Measured(LABELS["bearing_length"], typed, both(length, unit), "", "measured")


def _typed(reading: Reading) -> str:
    text = reading.text if reading.unit_written else f"{reading.text} {reading.unit}"
    start = "" if reading.start_mark in ("", "0") else f", from mark {reading.start_mark}"
    again = f"; again {reading.again.text}" if reading.again else ""
    return f"{text}{start}{again}"


_TAKEN = (("gap", "gap_now"), ("hub_length", "hub_length"), ("diameter", "dia_clean"))
_VALUES = {"gap": "predicted_gap", "hub_length": "hub_length"}


def _assumed(sheet: Sheet, stack: Mapping[str, Any]) -> Iterator[Measured]:
    marks = stack.get("marks") or {}
    for name, slug in _TAKEN:
        mark, value = marks.get(name), stack.get(_VALUES.get(name, ""))
        if slug in sheet.readings or mark not in ("assumed", "computed") or not value:
            continue
        yield Measured(LABELS[slug], "—", both(mm(value), str(stack.get("system"))), "", str(mark))
    if marks.get("nose") == "assumed" and stack.get("overall") != stack.get("length"):
        yield Measured("Cotter-pin nose", "—", "standard, with nose", "", "assumed")
    if not sheet.use and stack:
        yield Measured("Use of the boat", "—", "pleasure", "", "assumed")


def line_fact(line: Mapping[str, Any], currency: str = "", language: str = "en") -> LineFact:
    """A stored line as it is shown, on paper and on pages.

    A unit price may have more places than its currency has, so it stays a bare number.
    """
    amount, price = line.get("amount"), line.get("unit_price")
    return LineFact(
        text=str(line["text"]),
        how=str(line["how"]),
        quantity=f"{line['quantity']} {line['unit']}".removesuffix(" each"),
        unit_price=_price_text(price) if price is not None else TO_COME,
        amount=TO_COME if amount is None else money_text(Decimal(str(amount)), currency, language),
    )


def _price_text(price: Any) -> str:
    return f"{Decimal(str(price)):,f}".replace(",", "\N{NO-BREAK SPACE}")


def sums(
    goods: Decimal,
    freight_words: str,
    freight: Decimal,
    tax: Decimal,
    rates: Rates,
    taxes: tuple[TaxSum, ...] = (),
    currency: str = "",
    language: str = "en",
) -> tuple[tuple[str, str], ...]:
    """What stands between the lines and the total.

    ``taxes``: as priced. Where they are not known, the rate is named only if it makes this tax.
    """
    rows = tax_rows(taxes, currency, language)
    if not rows:
        as_today = tax == to_money(goods * rates.tax_rate, currency)
        words = f"Tax {percent(rates.tax_rate)} % on goods and work" if as_today else "Tax"
        rows = ((words, money_text(tax, currency, language)),)
    return (
        ("Goods and work", money_text(goods, currency, language)),
        (freight_words, money_text(freight, currency, language)),
        *rows,
    )
