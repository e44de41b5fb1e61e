"""An invoice's paper: everything on it, the same bytes again, on as many pages as it needs."""

from __future__ import annotations

from dataclasses import replace
from io import BytesIO
from typing import Any

import pytest
from pypdf import PdfReader

from quotes.domain.invoice_facts import InvoiceFacts, InvoiceRow
from quotes.paper.invoice import invoice_pdf

ROW = InvoiceRow("", "Bar, 1 in UNS S20910: 49 in overall", "50 in", "3.60", "180.00")
FACTS = InvoiceFacts(
    shop="Otterhithe Shaft Desk",
    number="I-2026-000001",
    is_credit=False,
    issued="November 26, 2026",
    due="December 10, 2026",
    seller=("Otterhithe Shaft Desk", "1 Slip Lane"),
    buyer=("Wilmot Tarpley", "3 Withy Bed"),
    about=("Quote Q-2026-000001, version 2 · Biscuit Barrel · our reference S-1",),
    currency="",
    rows=(ROW, replace(ROW, text="Keys 1/4, two", quantity="2", unit_price="6.00")),
    sums=(("Before tax", "654.15"), ("Tax 7 % on goods and work, of 613.15", "42.92")),
    total="697.07",
    after=(("Deposit and payments so far", "-300.00"), ("To pay", "397.07")),
    notes=("Please name I-2026-000001 when you pay.",),
)


def read(pdf: bytes) -> tuple[PdfReader, str]:
    reader = PdfReader(BytesIO(pdf))
    return reader, "\n".join(page.extract_text() for page in reader.pages)


def test_everything_is_on_it() -> None:
    reader, text = read(invoice_pdf(FACTS))
    assert len(reader.pages) == 1
    wanted = [FACTS.number, *FACTS.seller, *FACTS.buyer, FACTS.issued, FACTS.due, *FACTS.about]
    wanted += [part for row in FACTS.rows for part in (row.text, row.quantity, row.amount)]
    wanted += [part for pair in (*FACTS.sums, *FACTS.after) for part in pair]
    wanted += [FACTS.total, "page 1 of 1", *FACTS.notes]
    assert [part for part in wanted if part not in text] == []


def test_the_same_facts_make_the_same_bytes() -> None:
    assert invoice_pdf(FACTS) == invoice_pdf(FACTS)


def test_it_is_tagged_with_headings_and_tables() -> None:
    reader, _text = read(invoice_pdf(FACTS))
    root: Any = reader.trailer["/Root"]
    assert root["/MarkInfo"]["/Marked"]
    tags = [kid.get_object()["/S"] for kid in root["/StructTreeRoot"]["/K"]["/K"]]
    assert tags.count("/Table") == 2
    assert {"/H1", "/H2", "/P"} <= set(tags)


@pytest.mark.parametrize(("boats", "pages"), [(1, 1), (4, 2), (9, 3)])
def test_a_yards_boats_flow_over_pages_and_none_is_lost(boats: int, pages: int) -> None:
    rows = tuple(
        replace(ROW, of=f"Quote Q-{boat}", text=f"Line {boat}-{at} of it")
        for boat in range(boats)
        for at in range(11)
    )
    reader, text = read(invoice_pdf(replace(FACTS, rows=rows)))
    assert len(reader.pages) == pages
    assert [row.text for row in rows if row.text not in text] == []
    assert f"page {pages} of {pages}" in text
    assert [f"Quote Q-{boat}" for boat in range(boats) if f"Quote Q-{boat}" not in text] == []


def test_a_credit_note_says_of_which_invoice_and_why() -> None:
    facts = replace(
        FACTS, is_credit=True, number="CN-2026-000001", after=(), due="",
        of="For invoice I-2026-000001 of November 26, 2026.", reason="wrong bearing",
    )  # fmt: skip
    _reader, text = read(invoice_pdf(facts))
    for part in ("Credit note CN-2026-000001", facts.of, "Reason: wrong bearing", "Total credited"):
        assert part in text


def test_what_a_customer_typed_is_drawn_and_never_run() -> None:
    odd = replace(FACTS, buyer=("<b>Bold</b> & Sons", "x" * 200), about=("漢字",))
    reader, text = read(invoice_pdf(odd))
    assert "<b>Bold</b> & Sons" in text
    assert "shown as" in text
    assert len(reader.pages) == 1
