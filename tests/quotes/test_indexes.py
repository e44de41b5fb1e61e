"""What waits is found by an index of what waits, however much was done before.

SQLite uses such an index only where the question says the index's own condition, parameters and
all. PostgreSQL chooses by its statistics, which a table of no rows does not have.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

import pytest
from django.db import connection

from catalog.pieces.selectors import pieces_page
from quotes.calendar.selectors import load_days
from quotes.cases.selectors import some_cases
from quotes.inspecting.selectors import waiting_for_the_desk
from quotes.invoices.models import Invoice
from quotes.invoices.selectors import credit_notes_of
from quotes.outcomes.selectors import due_to_ask, nothing_heard
from quotes.receiving.selectors import awaited
from quotes.shop.selectors import parcels_to_send, shafts_to_make
from quotes.stock.selectors import to_be_found, to_order, waiting_shafts

pytestmark = [
    pytest.mark.django_db,
    pytest.mark.skipif("connection.vendor != 'sqlite'", reason="it has no statistics of no rows"),
]

LISTS: dict[str, tuple[Callable[[], Any], str]] = {
    "shafts to make": (shafts_to_make, "quote_to_make"),
    "parcels to send": (parcels_to_send, "quote_to_make"),
    "days of work": (load_days, "quote_to_make"),
    "shafts that wait for a bar": (waiting_shafts, "hold_that_waits"),
    "to be ordered": (to_order, "hold_that_waits"),
    "to be ordered or found": (to_be_found, "hold_that_waits"),
    "rings the desk": (waiting_for_the_desk, "inspection_not_passed"),
    "nothing heard": (nothing_heard, "shipment_not_heard"),
    "to be asked on a day they named": (due_to_ask, "not_yet_by_day"),
    "open cases": (some_cases, "case_open"),
    "closed cases": (lambda: some_cases("closed"), "case_closed"),
    "cases without a cause": (lambda: some_cases("cause"), "case_by_cause"),
    "own parts that are awaited": (awaited, "own_part_awaited"),
    "credit notes": (lambda: credit_notes_of(Invoice(pk=1)), "credit_note_of"),
    "the rack": (pieces_page, "piece_in_the_rack"),
    "what has left the rack": (lambda: pieces_page(show="gone"), "piece_gone"),
}


@pytest.mark.parametrize("words", LISTS)
def test_a_list_is_read_from_its_index(words: str) -> None:
    ask, index = LISTS[words]
    assert index in _plans_of(ask)


def _plans_of(ask: Callable[[], Any]) -> str:
    """How the database goes about each query, with its parameters as they are sent."""
    asked: list[tuple[str, Any]] = []

    def note(execute: Callable[..., Any], sql: str, params: Any, *rest: Any) -> Any:
        asked.append((sql, params))
        return execute(sql, params, *rest)

    with connection.execute_wrapper(note):
        ask()
    steps = []
    with connection.cursor() as cursor:
        for sql, params in asked:
            cursor.execute(f"EXPLAIN QUERY PLAN {sql}", params)
            steps += [row[-1] for row in cursor.fetchall()]
    return "\n".join(steps)
