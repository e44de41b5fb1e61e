"""The shop's checks on the page of checks: each is explained, with all its limits."""

from __future__ import annotations

from intake.check_book import as_markdown, chapters
from quotes.check_pages import shop_chapters, unexplained
from quotes.checks import ALL


def test_every_check_of_the_shop_is_explained_with_all_its_limits() -> None:
    assert unexplained() == []
    shop = [page.id for chapter in shop_chapters() for page in chapter.checks]
    assert shop == [check.id for check in ALL]
    everything = [page.id for chapter in chapters() for page in chapter.checks]
    assert everything[-len(ALL) :] == shop
    assert len(set(everything)) == len(everything)


def test_what_stops_a_finished_shaft_says_its_figures() -> None:
    """Checks 124 and 125: a thirty-second, 0.002 in per foot; common practice, no source."""
    paper = as_markdown()
    assert "How far the length may be off as made: 1/32 in · 0.794 mm." in paper
    assert "Total indicator reading for each foot of length: 0.002 in · 0.051 mm." in paper
