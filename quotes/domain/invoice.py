"""What an invoice says in money: lines and taxes copied from quotes, and what is credited of it.

Nothing is priced here. An invoice's lines are those of its quotes to the cent; a credit note's are
parts of the invoice's, and all of them together never come to more.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from typing import Any

from quotes.domain.money import money_text, to_money
from quotes.domain.tax import FREIGHT, GOODS, WORK, TaxSum, kind_of, tax_words

_ZERO = Decimal(0)
DUE_DAYS = 14  # from the day of issue; invented
INVOICE, CREDIT = "invoice", "credit"


class InvoiceError(Exception):
    """This cannot be invoiced or credited as things stand; the words say why and what to do."""


@dataclass(frozen=True, slots=True)
class BillLine:
    """One line as the quote has it. ``of``: the quote's number. ``taxed``: which of the bill's
    taxes is taken of it, by its place; None for none.
    """

    of: str
    code: str
    text: str
    quantity: str
    unit: str
    unit_price: str
    amount: Decimal
    kind: str
    taxed: int | None = None


@dataclass(frozen=True, slots=True)
class BillTax:
    """One tax: its rate as a fraction (None where an old quote does not say), and of how much."""

    words: str
    rate: Decimal | None
    base: Decimal
    amount: Decimal


@dataclass(frozen=True, slots=True)
class Bill:
    """Lines and taxes; the sums are theirs."""

    lines: tuple[BillLine, ...] = ()
    taxes: tuple[BillTax, ...] = ()

    @property
    def net(self) -> Decimal:
        """Before tax, freight among it."""
        return sum((line.amount for line in self.lines), _ZERO)

    @property
    def tax(self) -> Decimal:
        """Every tax together."""
        return sum((tax.amount for tax in self.taxes), _ZERO)

    @property
    def total(self) -> Decimal:
        """What is asked for."""
        return self.net + self.tax


@dataclass(frozen=True, slots=True)
class Quoted:
    """One accepted quote, as it was stored. ``taxes`` are () where an old quote kept none."""

    number: str
    lines: Sequence[Mapping[str, Any]]
    freight_words: str
    freight: Decimal
    goods: Decimal
    tax: Decimal
    taxes: tuple[TaxSum, ...] = ()


# --- From quotes to a bill ---------------------------------------------------------------


def bill_of(quotes: Iterable[Quoted]) -> Bill:
    """The bill of one quote, or of several: their lines one after another, one tax for each rate.

    >>> one = Quoted("Q-1", [], "Freight", Decimal(41), Decimal(0), Decimal(0))
    >>> bill_of([one, one]).total
    Decimal('82')
    """
    lines: list[BillLine] = []
    taxes: list[BillTax] = []
    for quote in quotes:
        places = {_added(taxes, tax): kinds for tax, kinds in _taxes(quote)}
        of_kind = {kind: place for place, kinds in places.items() for kind in kinds}
        lines += [replace(line, taxed=of_kind.get(line.kind)) for line in _lines(quote)]
    return Bill(tuple(lines), tuple(taxes))


def _lines(quote: Quoted) -> list[BillLine]:
    lines = [
        BillLine(
            of=quote.number,
            code=str(line["code"]),
            text=str(line["text"]),
            quantity=str(line["quantity"]),
            unit=str(line["unit"]),
            unit_price=str(line["unit_price"] or ""),
            amount=Decimal(str(line["amount"])),
            kind=kind_of(str(line["code"])),
        )
        for line in quote.lines
    ]
    if quote.freight:
        lines.append(freight_line(quote.number, quote.freight_words, quote.freight))
    return lines


def freight_line(of: str, words: str, amount: Decimal) -> BillLine:
    """What it costs to send, as a line of its own."""
    return BillLine(of, "FREIGHT", words or "Freight", "1", "each", str(amount), amount, FREIGHT)


def _taxes(quote: Quoted) -> list[tuple[BillTax, tuple[str, ...]]]:
    """Each tax with the kinds of line it is taken of."""
    if quote.taxes:
        return [
            (BillTax(tax_words(one), one.rate, one.base, one.amount), one.kinds)
            for one in quote.taxes
        ]
    if not quote.tax:
        return []
    return [(BillTax("Tax on goods and work", None, quote.goods, quote.tax), (GOODS, WORK))]


def _added(taxes: list[BillTax], tax: BillTax) -> int:
    """Where a tax stands among the bill's: with the one of the same words, or at the end."""
    for place, one in enumerate(taxes):
        if one.words == tax.words:
            base, amount = one.base + tax.base, one.amount + tax.amount
            taxes[place] = replace(one, base=base, amount=amount)
            return place
    taxes.append(tax)
    return len(taxes) - 1


def with_freight_of_bundle(bill: Bill, freight: BillLine, tax_left: Decimal) -> Bill:
    """The bill of a bundle's boats: one freight instead of theirs, and the tax it comes to.

    ``tax_left``: what the bundle's tax differs by from the sum of its quotes'.
    """
    lines = tuple(line for line in bill.lines if line.kind != FREIGHT)
    lines += (freight,) if freight.amount else ()
    if not tax_left:
        return Bill(lines, bill.taxes)
    if not bill.taxes:
        return Bill(lines, (BillTax("Tax", None, freight.amount, tax_left),))
    first = bill.taxes[0]
    return Bill(lines, (replace(first, amount=first.amount + tax_left), *bill.taxes[1:]))


# --- Credit notes ------------------------------------------------------------------------


def left_of(bill: Bill, credits: Iterable[Mapping[int, Decimal]]) -> dict[int, Decimal]:
    """What is not credited yet of each line, by its place; a discount's is below nothing."""
    left = {place: line.amount for place, line in enumerate(bill.lines)}
    for credit in credits:
        for place, amount in credit.items():
            left[place] -= amount
    return left


def credit_of(
    bill: Bill, earlier: Sequence[Mapping[int, Decimal]], wanted: Mapping[int, Decimal]
) -> Bill:
    """A credit note's bill: of each line so much, before tax, and the tax that goes with it.

    The tax is what all credits together come to, less what was credited of it before: when
    nothing is left of the lines, nothing is left of the tax. Raises InvoiceError for more than is
    left.
    """
    left = left_of(bill, earlier)
    for place, amount in wanted.items():
        if not _within(amount, left[place]):
            raise InvoiceError(_too_much(bill.lines[place], left[place]))
    lines = tuple(
        replace(bill.lines[place], quantity="", unit="", unit_price="", amount=amount)
        for place, amount in sorted(wanted.items())
        if amount
    )
    before, after = _taxed(bill, earlier), _taxed(bill, [*earlier, wanted])
    taxes = tuple(
        replace(now, base=now.base - then.base, amount=now.amount - then.amount)
        for then, now in zip(before, after, strict=True)
    )
    return _sensible(Bill(lines, taxes), bill, earlier)


def whole(bill: Bill, earlier: Sequence[Mapping[int, Decimal]]) -> dict[int, Decimal]:
    """Everything that is left of it."""
    return {place: amount for place, amount in left_of(bill, earlier).items() if amount}


def _within(amount: Decimal, left: Decimal) -> bool:
    return min(_ZERO, left) <= amount <= max(_ZERO, left)


def _too_much(line: BillLine, left: Decimal) -> str:
    return f"{line.text}: only {money_text(left)} is left of it, so no more can be credited."


def _sensible(credit: Bill, bill: Bill, earlier: Sequence[Mapping[int, Decimal]]) -> Bill:
    credited = sum((sum(one.values(), _ZERO) for one in earlier), _ZERO)
    credited += sum((tax.amount for tax in _taxed(bill, earlier)), _ZERO)
    if credit.total <= 0:
        raise InvoiceError("Say of which lines how much is credited; together more than nothing.")
    if credit.total > bill.total - credited:
        raise InvoiceError(
            f"Only {money_text(bill.total - credited)} is left of this invoice, tax with it. "
            "Take the discount off as well, or credit less."
        )
    return credit


def _taxed(bill: Bill, credits: Iterable[Mapping[int, Decimal]]) -> list[BillTax]:
    """The taxes that credits come to: of each tax the same part as of its lines.

    A discount is in the tax already, so only what stands above nothing is counted.
    """
    every = list(credits)
    if not whole(bill, every):
        return list(bill.taxes)
    return [
        replace(tax, base=to_money(tax.base * part), amount=to_money(tax.amount * part))
        for place, tax in enumerate(bill.taxes)
        for part in [_part_of(bill, place, every)]
    ]


def _part_of(bill: Bill, tax: int, credits: Iterable[Mapping[int, Decimal]]) -> Decimal:
    """Which part of the lines a tax is taken of was credited, from 0 to 1."""
    own = {
        place: line.amount
        for place, line in enumerate(bill.lines)
        if line.taxed == tax and line.amount > 0
    }
    credited = sum((one.get(place, _ZERO) for one in credits for place in own), _ZERO)
    return credited / sum(own.values()) if own else _ZERO
