"""Every measurement runs and finds a ratio. Nothing here is timed against a goal."""

from __future__ import annotations

import os
from collections.abc import Callable
from functools import partial
from pathlib import Path

import pytest

from tests.bench import measures, pages
from tests.bench.timing import Ratio

MEASURES: dict[str, Callable[[int], Ratio]] = {
    "P1": partial(measures.submissions, database_url=os.environ.get("DATABASE_URL", "")),
    "P4": partial(measures.typing, database_url=os.environ.get("DATABASE_URL", "")),
    "P2": measures.reading,
    "P3": partial(measures.judging, with_next_question=False),
    "P3 asking": partial(measures.judging, with_next_question=True),
    "P3 demo": measures.judging_the_demo,
    "P5": measures.quote_paper,
    "P10": measures.start_up,
}


@pytest.mark.parametrize("name", MEASURES)
def test_it_runs_and_finds_a_ratio(name: str) -> None:
    ratio = MEASURES[name](1)
    assert 0 < ratio.low <= ratio.value <= ratio.high


def test_papers_have_a_size() -> None:
    assert all(1 < size < 1000 for size in measures.paper_sizes())


def test_most_of_the_tape_is_read() -> None:
    assert len(measures.readable_texts()) > 40


def test_every_page_of_a_crowd_is_found_in_both_shops(tmp_path: Path) -> None:
    with pages.two_shops(tmp_path, 200, os.environ.get("DATABASE_URL", "")) as shops:
        for words, _name, _asked in pages.PAGES:
            ratio = pages.page(1, shops=shops, words=words)
            assert 0 < ratio.low <= ratio.value <= ratio.high, words
