"""Facts for papers: from a boat's sheet to what its quote says."""

from __future__ import annotations

import re
from functools import cache
from io import BytesIO
from typing import Any

import pdfplumber
from pypdf import PdfReader

from intake.domain.reading import read_sheet
from intake.evaluate import evaluate
from quotes.domain.facts import QuoteFacts
from quotes.domain.order import read_order
from quotes.domain.paper_facts import QuoteRow, quote_facts
from quotes.domain.pricing import price
from quotes.domain.rates import Rates
from quotes.paper.quote import quote_pdf
from tests.given import a_body, demo_stock


def the_facts(**changes: Any) -> QuoteFacts:
    """What the quote of a clean sheet says; ``changes`` as for a body."""
    body = a_body(**changes)
    record = evaluate(read_sheet(body), demo_stock()).as_record()
    priced = price(read_order(body, record), demo_stock(), Rates())
    row = QuoteRow(
        number="Q-2026-000123",
        version=2,
        issued="25 November 2026",
        valid_until="25 December 2026",
        lines=[line.as_json() for line in priced.lines],
        goods=priced.goods,
        freight=priced.freight,
        freight_words=priced.freight_words,
        tax=priced.tax,
        total=priced.total,
        reference="FG-7K2M9P",
    )
    return quote_facts(row, body, record, Rates())


@cache
def the_paper() -> bytes:
    return quote_pdf(the_facts())


def texts(pdf: bytes) -> list[str]:
    """What stands on each page, words one space apart."""
    with pdfplumber.open(BytesIO(pdf)) as paper:
        return [re.sub(r"\s+", " ", page.extract_text()) for page in paper.pages]


def read(pdf: bytes) -> Any:
    return PdfReader(BytesIO(pdf))
