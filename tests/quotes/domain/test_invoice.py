"""An invoice's sums are the quote's to the cent, and credits never come to more than it."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.domain.invoice import (
    Bill,
    InvoiceError,
    Quoted,
    bill_of,
    credit_of,
    freight_line,
    left_of,
    whole,
    with_freight_of_bundle,
)
from quotes.domain.money import to_money
from quotes.domain.tax import FREIGHT, GOODS, NOWHERE, WORK, TaxRule, taxes
from quotes.domain.terms import shared

CENTS = st.integers(1, 200_000).map(lambda cents: Decimal(cents) / 100)
CODES = st.sampled_from(["BH-1000", "SV-PROP-1000", "KY-1_4", "RUSH"])
RATES = st.sampled_from([Decimal("0.07"), Decimal("0.21"), Decimal(0)])


def a_line(code: str, amount: Decimal) -> dict[str, Any]:
    return {
        "code": code, "text": code.lower(), "quantity": "1", "unit": "each",
        "unit_price": str(amount), "amount": str(amount), "how": "",
    }  # fmt: skip


@st.composite
def quotes(draw: st.DrawFn, discounts: bool = False) -> Quoted:
    """A quote as pricing makes it, with up to three rates of tax, one of them on freight."""
    lines = [a_line(*pair) for pair in draw(st.lists(st.tuples(CODES, CENTS), min_size=1))]
    goods = sum((Decimal(line["amount"]) for line in lines), Decimal(0))
    freight = draw(CENTS)
    off = to_money(goods * Decimal("0.1")) if discounts else Decimal(0)
    work = sum(
        (Decimal(one["amount"]) for one in lines if one["code"].startswith(("SV", "RU"))),
        Decimal(0),
    )
    lines += [a_line("DISCOUNT", -off)] if off else []
    rules = [TaxRule("", "", kind, draw(RATES)) for kind in (GOODS, WORK, FREIGHT)]
    parts = shared(off, {GOODS: goods - work, WORK: work})
    bases = {GOODS: goods - work - parts[GOODS], WORK: work - parts[WORK], FREIGHT: freight}
    goods -= off
    found = taxes(bases, rules, place=NOWHERE)
    tax = sum((one.amount for one in found), Decimal(0))
    return Quoted(draw(st.sampled_from(["Q-1", "Q-2"])), lines, "Tube", freight, goods, tax, found)


@given(st.lists(quotes(discounts=True), min_size=1, max_size=3))
def test_the_bill_is_the_quotes_to_the_cent(found: list[Quoted]) -> None:
    bill = bill_of(found)
    assert bill.total == sum(one.goods + one.freight + one.tax for one in found)
    assert bill.tax == sum(one.tax for one in found)
    assert len({tax.words for tax in bill.taxes}) == len(bill.taxes)


@given(quotes(), st.data())
def test_credits_end_in_the_whole_invoice_and_never_beyond(quote: Quoted, data: Any) -> None:
    bill, total = bill_of([quote]), Decimal(0)
    earlier: list[dict[int, Decimal]] = []
    for _each in range(3):
        left = left_of(bill, earlier)
        wanted = {
            place: to_money(amount * data.draw(st.integers(0, 4)) / 4)
            for place, amount in left.items()
        }
        if not any(wanted.values()):
            continue
        total += (credit := credit_of(bill, earlier, wanted)).total
        assert credit.tax >= 0
        assert total <= bill.total
        earlier.append(wanted)
    if rest := whole(bill, earlier):
        total += credit_of(bill, earlier, rest).total
        assert total == bill.total
        earlier.append(rest)
    assert not whole(bill, earlier)
    with pytest.raises(InvoiceError):
        credit_of(bill, earlier, {0: Decimal("0.01")})


@given(quotes(discounts=True))
def test_a_whole_credit_takes_everything_off(quote: Quoted) -> None:
    bill = bill_of([quote])
    assert credit_of(bill, [], whole(bill, [])).total == bill.total


def test_more_than_is_left_is_refused_in_words() -> None:
    bill = bill_of([a_quote()])
    with pytest.raises(InvoiceError, match=r"Bar: only 100.00 is left"):
        credit_of(bill, [], {0: Decimal("100.01")})
    with pytest.raises(InvoiceError, match="more than nothing"):
        credit_of(bill, [], {})
    discounted = bill_of([a_quote(discount="-50")])
    with pytest.raises(InvoiceError, match=r"Only 97\.30 is left"):
        credit_of(discounted, [], {0: Decimal(100)})  # the discount would be given twice


def test_a_credited_line_takes_its_tax_along_and_freight_its_own_none() -> None:
    bill = bill_of([a_quote()])
    assert credit_of(bill, [], {0: Decimal(50)}).tax == Decimal("3.50")
    assert credit_of(bill, [], {1: Decimal(41)}).tax == 0


def a_quote(discount: str = "") -> Quoted:
    lines = [{**a_line("BH-1", Decimal(100)), "text": "Bar"}]
    goods = Decimal(100) + Decimal(discount or 0)
    lines += [a_line("DISCOUNT", Decimal(discount))] if discount else []
    tax = to_money(goods * Decimal("0.07"))
    freight = Decimal("43.80") if discount else Decimal(41)
    return Quoted("Q-1", lines, "Tube", freight, goods, tax)


def test_an_old_quote_says_its_tax_without_a_rate() -> None:
    (tax,) = bill_of([a_quote()]).taxes
    assert (tax.words, tax.rate, tax.base, tax.amount) == (
        "Tax on goods and work", None, Decimal(100), Decimal("7.00"),
    )  # fmt: skip


def test_a_bundle_has_one_freight_and_its_own_tax() -> None:
    bill = bill_of([a_quote(), a_quote()])
    whole_one = with_freight_of_bundle(bill, freight_line("B-1", "Crate", Decimal(60)), Decimal(1))
    assert whole_one.total == Decimal(200) + 60 + 14 + 1
    rest = with_freight_of_bundle(bill, freight_line("B-1", "", Decimal(0)), Decimal(0))
    assert rest.total == Decimal(214)
    assert all(line.kind != FREIGHT for line in rest.lines)
    assert Bill().total == 0
