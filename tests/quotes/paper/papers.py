"""Facts for papers: from a boat's sheet to what its quote says."""

from __future__ import annotations

import re
import unicodedata
from functools import cache
from io import BytesIO
from typing import Any

import pdfplumber
from pypdf import PdfReader

from intake.domain.reading import read_sheet
from intake.evaluate import evaluate
from quotes.domain.besides import NOTHING_BESIDES, Besides
from quotes.domain.facts import QuoteFacts
from quotes.domain.order import read_order
from quotes.domain.paper_facts import QuoteRow, quote_facts
from quotes.domain.pricing import price
from quotes.domain.rates import Rates
from quotes.paper.quote import quote_pdf
from tests.given import a_body, demo_stock


def the_facts(besides: Besides = NOTHING_BESIDES, **changes: Any) -> QuoteFacts:
    """What the quote of a clean sheet says; ``changes`` as for a body."""
    body = a_body(**changes)
    record = evaluate(read_sheet(body), demo_stock()).as_record()
    priced = price(read_order(body, record, besides.choice), demo_stock(), Rates())
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
        taxes=priced.taxes,
    )
    return quote_facts(row, body, record, Rates(), besides=besides)


@cache
def the_paper() -> bytes:
    return quote_pdf(the_facts())


def texts(pdf: bytes) -> list[str]:
    """What stands on each page, words one space apart, fractions as they are typed."""
    with pdfplumber.open(BytesIO(pdf)) as paper:
        return [typed(re.sub(r"\s+", " ", page.extract_text())) for page in paper.pages]


_RAISED, _LOWERED = "⁰¹²³⁴⁵⁶⁷⁸⁹", "₀₁₂₃₄₅₆₇₈₉"
_TYPED = str.maketrans(_RAISED + _LOWERED + "⁄", 2 * "0123456789" + "/")


def typed(text: str) -> str:
    """Fractions that are set as signs, as somebody would type them."""
    for sign in "½¼¾⅛⅜⅝⅞":
        text = text.replace(sign, unicodedata.normalize("NFKC", sign))
    return text.translate(_TYPED)


def walk(tree: list[Any]) -> list[Any]:
    """Every element of a structure tree, each before those below it."""
    found = []
    for element in tree:
        found += [element, *walk(element.get("children", []))]
    return found


def read_out(pdf: bytes) -> str:
    """What who listens hears: the words of each element in reading order, a space between."""
    with pdfplumber.open(BytesIO(pdf)) as paper:
        marked: dict[tuple[int, int], str] = {}
        for number, page in enumerate(paper.pages, start=1):
            for sign in page.chars:
                key = (number, sign["mcid"])
                marked[key] = marked.get(key, "") + sign["text"]
        order = [
            marked.get((element["page_number"], mark), "")
            for element in walk(paper.structure_tree)
            for mark in element.get("mcids", [])
        ]
    return typed(" ".join(filter(None, order)))


def elements(pdf: bytes) -> list[Any]:
    """Every element of a paper's structure tree, in reading order."""
    with pdfplumber.open(BytesIO(pdf)) as paper:
        return walk(paper.structure_tree)


def read(pdf: bytes) -> Any:
    return PdfReader(BytesIO(pdf))
