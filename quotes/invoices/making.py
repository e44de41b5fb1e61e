"""From accepted quotes to what an invoice says: copied, never priced anew."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from datetime import date
from decimal import Decimal
from typing import Any

from django.conf import settings
from django.utils import timezone, translation
from django.utils.formats import date_format

from intake.models import Submission
from intake.said import language_now, said
from quotes.domain.exact_json import from_json, to_json
from quotes.domain.invoice import CREDIT, Bill, BillLine, BillTax, Quoted
from quotes.domain.invoice_facts import InvoiceFacts, InvoiceRow
from quotes.domain.lines import capital, plain
from quotes.domain.money import money_text
from quotes.invoices.models import Invoice
from quotes.models import Quote
from quotes.price_show import taxes_of
from quotes.selectors import rates

_ZERO = Decimal(0)
_SIDES = ("port", "starboard", "centre")


def quoted(quote: Quote) -> Quoted:
    """A quote as it was stored, for its bill."""
    return Quoted(
        number=quote.number,
        lines=quote.lines,
        freight_words=quote.freight_words,
        freight=quote.freight,
        goods=quote.goods,
        tax=quote.tax,
        taxes=taxes_of(quote),
    )


def about(quote: Quote) -> dict[str, Any]:
    """Which quote it was, for which boat, under whose order number; as it stays on the invoice."""
    submission = quote.submission
    accepted = quote.accepted_at and timezone.localdate(quote.accepted_at)
    side = submission.station if submission.station not in ("", "single") else ""
    return {
        "number": quote.number,
        "version": quote.version,
        "accepted": accepted.isoformat() if accepted else "",
        "boat": ", ".join(filter(None, (submission.boat_name, side))),
        "order": submission.job,
        "reference": submission.reference,
    }


def seller() -> list[str]:
    """Our own block: the name, and what the setting SHOP says of the address and tax number."""
    shop: Mapping[str, Any] = settings.SHOP
    number, own = shop.get("tax_number"), [rates().name, *shop.get("address", ())]
    return [*own, f"Tax number {number}"] if number else own


def buyer(submission: Submission) -> str:
    """Who is asked to pay, as far as the request says; the desk completes it."""
    sheet = submission.current
    place = (sheet.body.get("answers") or {}).get("ship_to") if sheet else None
    place = place if isinstance(place, Mapping) else {}
    city = " ".join(str(place[part]) for part in ("postcode", "country") if place.get(part))
    return "\n".join(filter(None, (submission.contact_name, city)))


# --- As it is kept, and back ------------------------------------------------------------


def bill_kept(bill: Bill) -> dict[str, Any]:
    """Lines, taxes and sums as an invoice's row has them."""
    sums = {"net": bill.net, "tax": bill.tax, "total": bill.total}
    return {"lines": to_json(bill.lines), "taxes": to_json(bill.taxes), **sums}


def bill_again(invoice: Invoice) -> Bill:
    """The bill as it was issued."""
    lines = tuple(from_json(BillLine, line) for line in invoice.lines)
    return Bill(lines, tuple(from_json(BillTax, tax) for tax in invoice.taxes))


def credited(invoice: Invoice) -> dict[int, Decimal]:
    """What a credit note takes off each line of its invoice, by the line's place."""
    return {int(place): Decimal(amount) for place, amount in invoice.credited.items()}


# --- In words ---------------------------------------------------------------------------


def facts_of(invoice: Invoice) -> InvoiceFacts:
    """What its paper says, in the language that is spoken at the moment."""
    bill, numbers = bill_again(invoice), [one["number"] for one in invoice.about]
    return InvoiceFacts(
        shop=(invoice.seller or [""])[0],
        number=invoice.number,
        is_credit=invoice.kind == CREDIT,
        issued=_day(invoice.issued_on),
        due=_day(invoice.due_on) if invoice.due_on else "",
        seller=tuple(invoice.seller),
        buyer=tuple(invoice.buyer),
        about=tuple(about_words(_as_told(one)) for one in invoice.about),
        currency=invoice.currency,
        rows=tuple(_row(line, invoice.currency, many=len(numbers) > 1) for line in bill.lines),
        sums=_sums(bill, invoice.currency),
        total=_money(invoice.total, invoice.currency),
        after=_after(invoice),
        of=f"For invoice {invoice.of.number} of {_day(invoice.of.issued_on)}."
        if invoice.of
        else "",
        reason=invoice.reason,
        notes=_notes(invoice),
    )


def about_words(one: Mapping[str, Any]) -> str:
    """One quote in a line.

    >>> about_words({"number": "Q-1", "version": 2, "boat": "Fedora", "order": "PO 7",
    ...              "reference": "S-1", "accepted": ""})
    'Quote Q-1, version 2 · Fedora · your order PO 7 · our reference S-1'
    """
    accepted = f", accepted {one['accepted']}" if one.get("accepted") else ""
    parts = [f"Quote {one['number']}, version {one['version']}{accepted}", one.get("boat", "")]
    parts += [f"your order {one['order']}"] if one.get("order") else []
    return " · ".join(filter(None, [*parts, f"our reference {one['reference']}"]))


def _row(line: BillLine, currency: str, *, many: bool) -> InvoiceRow:
    each = _money(Decimal(line.unit_price), "") if _is_money(line.unit_price) else ""
    return InvoiceRow(
        of=f"Quote {line.of}" if many else "",
        text=said(capital(line.text)),
        quantity=said(_quantity(line)),
        unit_price=said(line.unit_price) if "." in line.unit_price else each,
        amount=_money(line.amount, currency),
    )


def _quantity(line: BillLine) -> str:
    return " ".join(filter(None, (line.quantity, "" if line.unit == "each" else line.unit)))


def _money(amount: Decimal, currency: str) -> str:
    """An amount as the language of the moment writes it."""
    return said(money_text(amount, currency, language_now()))


def _is_money(text: str) -> bool:
    return text.replace(".", "", 1).replace("-", "", 1).isdecimal()


def _sums(bill: Bill, currency: str) -> tuple[tuple[str, str], ...]:
    rows = [("Before tax", _money(bill.net, currency))]
    for tax in bill.taxes:
        words = f"{tax.words}, of {_money(tax.base, currency)}"
        rows.append((words, _money(tax.amount, currency)))
    return tuple(rows)


def _after(invoice: Invoice) -> tuple[tuple[str, str], ...]:
    """What was paid before, taken off, and what is left to pay."""
    if invoice.kind == CREDIT or not invoice.paid:
        return ()
    rows = [("Deposit and payments so far", _money(-invoice.paid, invoice.currency))]
    words = "To pay" if invoice.to_pay >= 0 else "To be paid back to you"
    return (*rows, (words, _money(abs(invoice.to_pay), invoice.currency)))


def _notes(invoice: Invoice) -> tuple[str, ...]:
    if invoice.kind == CREDIT:
        return ("The amount is taken off what is open, or paid back.",)
    if invoice.to_pay <= 0:
        return ("Nothing is left to pay. Thank you.",)
    return (f"Please name {invoice.number} when you pay.",)


def _as_told(one: Mapping[str, Any]) -> dict[str, Any]:
    """The day and the side in words; the boat's own name stays."""
    accepted, boat = one.get("accepted"), str(one.get("boat") or "")
    name, comma, side = boat.rpartition(", ")
    told = f"{name}{comma}{said(side)}" if side in _SIDES else boat
    day = _day(date.fromisoformat(accepted)) if accepted else ""
    return {**one, "accepted": day, "boat": told}


def _day(day: Any) -> str:
    return date_format(day, "DATE_FORMAT")


def paper(invoice: Invoice, language: str) -> bytes:
    """The PDF, in the customer's language."""
    from quotes.paper.invoice import invoice_pdf  # here: a start needs no printer

    with translation.override(language):
        return invoice_pdf(facts_of(invoice), say=said, language=language)


def csv_rows(invoice: Invoice) -> list[Sequence[str]]:
    """One invoice as a table: its lines, then its taxes, the total, and what was paid before."""
    bill = bill_again(invoice)
    rows: list[Sequence[str]] = [CSV_HEADINGS]
    for line in bill.lines:
        numbers = (line.quantity, line.unit, line.unit_price, str(line.amount))
        rows.append((invoice.number, "line", line.of, line.code, line.text, *numbers))
    for tax in bill.taxes:
        rate = "" if tax.rate is None else f"{plain(tax.rate * 100)} %"
        rows.append((invoice.number, "tax", "", rate, tax.words, "", "", "", str(tax.amount)))
    ends = [("total", invoice.total), ("paid before", -invoice.paid), ("to pay", invoice.to_pay)]
    for words, amount in ends[: 1 if invoice.kind == CREDIT else 3]:
        rows.append((invoice.number, words, "", "", "", "", "", "", str(amount)))
    return rows


CSV_HEADINGS = (
    *("invoice", "row", "quote", "code", "text", "quantity", "unit", "unit price", "amount"),
)
