"""The quote on one to three pages of A4. Pure: the same facts give the same bytes.

First the boat: drawing, shaft, gap, the customer's own numbers and photos. Then the order: lines,
other metals, options, when. Then the answer: what to confirm, terms, cautions. Customers' words are
drawn, never read as markup.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

from intake.paper.pen import Pen
from quotes.domain.facts import QuoteFacts
from quotes.paper import answer, boat, choices, columns, numbers, prices
from quotes.paper.page import Paper

Say = Callable[[str], str]
MOST_PAGES = 3
# How tightly it may be set: to save a page in comfort, and where it must become shorter.
_COMFORT = (1.0, 0.95, 0.9, 0.86, 0.82)
_PRESSED = (0.78, 0.74, 0.7)
_FEWER_NUMBERS = (40, 30, 20, 12, 6, 0)
_SECTIONS = (
    *(boat.head, boat.who, boat.drawing, boat.shaft_and_gap, boat.notes),
    *(numbers.readings, numbers.photos, prices.prices, choices.alloys, choices.options),
    *(answer.when, answer.confirm, columns.terms, columns.cautions),
)


def quote_pdf(facts: QuoteFacts, say: Say = str, language: str = "en") -> bytes:
    """The whole paper. ``say`` puts its own headings into ``language``; the facts come said."""
    plan = _planned(Paper(facts, words=say, foot=boat.foot, running=boat.running_head))
    subject = f"{facts.boat} {facts.reference}"
    pen = Pen(say(boat.title(facts)), facts.shop, subject, language=language)
    laid = _laid_out(replace(plan, pen=pen))
    boat.foot(laid)
    return pen.finished()


def _planned(paper: Paper) -> Paper:
    """How it is set: the loosest that needs as few pages as a slightly tighter one would.

    Parts alone go on one page. What still runs past the third loses numbers, and says so.
    """
    tried = _tries(paper)
    best = next(tried)
    for one in tried:
        if one.pages < best.pages:
            best = one
    return best


def _tries(paper: Paper) -> Iterator[Paper]:
    """Papers from loose to tight, measured; no further than is worth it."""
    first = last = _measured(paper, 1.0)
    yield first
    if first.pages == 1:
        return
    tightest = _measured(paper, _COMFORT[-1])
    if tightest.pages < first.pages:
        yield from (_measured(paper, tight) for tight in _COMFORT[1:-1])
    yield (last := tightest)
    wanted = MOST_PAGES if paper.facts.shaft else 1
    for tight in _PRESSED:
        if last.pages <= wanted:
            return
        yield (last := _measured(paper, tight))
    for most in _FEWER_NUMBERS:
        if last.pages <= MOST_PAGES:
            return
        yield (last := _measured(replace(paper, most_numbers=most), _PRESSED[-1]))


def _measured(paper: Paper, tight: float) -> Paper:
    """The same paper with its number of pages at this setting."""
    laid = _laid_out(replace(paper, tight=tight))
    return replace(paper, tight=tight, pages=laid.page)


def _laid_out(paper: Paper) -> Paper:
    laid = replace(paper)
    for section in _SECTIONS:
        section(laid)
    return laid
