"""Facts for the papers that go with a shaft."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from catalog.domain.lengths import Length, inches
from intake.domain.reading import read_sheet
from intake.evaluate import evaluate
from quotes.domain.cut_words import small_end, stored_chain
from quotes.domain.fitting import CAUTIONS, STEPS, FittingFacts, alignment_rows, gap_lines
from quotes.domain.order import read_order
from quotes.domain.packing import PackingFacts, PackingRow, packing_facts
from quotes.domain.pricing import price
from quotes.domain.rates import Rates
from quotes.domain.tag import TagFacts
from tests.given import a_body, demo_stock
from tests.quotes.domain.test_as_made import promised

ADDRESS = "https://desk.example.org/t/0123456789abcdefghijkl/"


def the_packing(**changes: Any) -> PackingFacts:
    """The packing list of a clean sheet; ``changes`` as for a body."""
    body = a_body(**changes)
    record = evaluate(read_sheet(body), demo_stock()).as_record()
    order, made = read_order(body, record), stored_chain(body, record)
    assert order.shaft
    assert made
    row = PackingRow(
        shop="Otterhithe Shaft Desk",
        number="Q-2026-000123",
        version=2,
        reference="FG-7K2M9P",
        boat="Biscuit Barrel, single shaft",
        job="PO 7741",
        customer="Wilmot Tarpley",
        ship_to="a yard, 07015, Spain",
        lines=[line.as_json() for line in price(order, demo_stock(), Rates()).lines],
    )
    return packing_facts(row, order, made, small_end(order.shaft), Rates(), order.shaft.length)


def the_fitting(**changes: Any) -> FittingFacts:
    """The fitting card of the same shaft."""
    facts = FittingFacts(
        shop="Otterhithe Shaft Desk",
        number="Q-2026-000123",
        version=2,
        reference="FG-7K2M9P",
        boat="Biscuit Barrel, single shaft",
        shaft="1 in · 25.4 mm, UNS S20910, 49 in · 1244.6 mm",
        address=ADDRESS,
        gap=gap_lines(inches("3/4"), Length(1_500_000), promised().band),
        steps=STEPS,
        alignment=alignment_rows(inches(4)),
        cautions=CAUTIONS,
    )
    return replace(facts, **changes)


def the_tag(**changes: Any) -> TagFacts:
    """The tag of the same shaft."""
    facts = TagFacts(
        shop="Otterhithe Shaft Desk",
        number="Q-2026-000123",
        boat="Biscuit Barrel, single shaft",
        length="49 in · 1244.6 mm",
        alloy="1 in · 25.4 mm, UNS S20910",
        heat="H-4471",
        address=ADDRESS,
    )
    return replace(facts, **changes)
