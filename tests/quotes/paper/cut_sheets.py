"""Facts for cut sheets: from a boat's sheet to what the machinist reads."""

from __future__ import annotations

from functools import cache
from typing import Any

from intake.domain.reading import read_sheet
from intake.evaluate import evaluate
from quotes.domain.cut_facts import CutFacts
from quotes.domain.cut_words import CutRow, cut_facts
from quotes.paper.cut_sheet import cut_sheet_pdf
from tests.given import a_body, demo_stock

ROW = CutRow(
    shop="Otterhithe Shaft Desk",
    number="Q-2026-000123",
    version=2,
    sheet_number=1,
    reference="FG-7K2M9P",
    accepted="26 November 2026",
    address="https://desk.example.org/desk/FG-7K2M9P/cut-sheet.pdf",
)


def the_cut(**changes: Any) -> CutFacts:
    """What the cut sheet of a clean sheet says; ``changes`` as for a body."""
    body = a_body(**changes)
    return cut_facts(ROW, body, evaluate(read_sheet(body), demo_stock()).as_record())


@cache
def the_cut_sheet(page: str = "a4") -> bytes:
    return cut_sheet_pdf(the_cut(), page)
