"""Facts beside a sheet are kept with it and read back the very same."""

from __future__ import annotations

import json
from datetime import date
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from catalog.domain.lengths import Length, inches
from intake.domain.batch import Alike
from intake.domain.history import History, Misfit
from intake.domain.kept_history import history_again, kept_history
from tests.given import a_sheet

LENGTHS = st.integers(0, 10**10).map(Length)
MAYBE = st.none() | LENGTHS
WORDS = st.text("abc-0123456789", min_size=1, max_size=8)
HISTORIES = st.builds(
    History,
    same_open=st.lists(WORDS, max_size=3).map(tuple),
    settled=st.frozensets(st.tuples(WORDS, WORDS), max_size=3),
    last_length=MAYBE,
    fitted_gap=MAYBE,
    last_diameter=MAYBE,
    last_alloy=WORDS | st.just(""),
    last_month=st.sampled_from(["", "2026-04"]),
    last_by_side=st.lists(st.tuples(WORDS, LENGTHS), max_size=2).map(tuple),
    misfit=st.none() | st.builds(Misfit, WORDS, MAYBE),
    family_lengths=st.lists(LENGTHS, max_size=4).map(tuple),
    today=st.none() | st.dates(),
    fitted_orders=st.integers(0, 9),
    batch=st.lists(st.builds(Alike, WORDS, st.lists(WORDS).map(tuple), st.integers(0, 90)),
                   max_size=2).map(tuple),
)  # fmt: skip


@given(HISTORIES)
def test_what_was_known_reads_back_the_same(history: History) -> None:
    kept = json.loads(json.dumps(kept_history(history)))
    assert history_again(kept) == history


def test_a_gap_of_nothing_is_a_gap() -> None:
    assert history_again(kept_history(History(fitted_gap=Length(0)))).fitted_gap == Length(0)


def test_of_a_newcomer_only_the_day_is_kept() -> None:
    assert kept_history(History(today=date(2026, 4, 1))) == {"today": "2026-04-01"}


def test_the_other_side_is_kept_by_its_number_and_nobody_is_named() -> None:
    sister = a_sheet()
    facts = History(sister=sister, sister_station="port", last_length=inches(49))
    kept: dict[str, Any] = kept_history(facts, 17)
    assert kept["sister"] == 17
    assert {"Wilmot", "Biscuit"}.isdisjoint(json.dumps(kept).replace('"', " ").split())
    assert history_again(kept, sister) == facts
