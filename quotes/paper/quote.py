"""The quote on one to three pages of A4. Pure: the same facts give the same bytes.

First the boat: drawing, shaft, gap, the customer's own numbers and photos. Then the order: lines,
other metals, options, when. Then the answer: what to confirm, terms, cautions. Customers' words are
drawn, never read as markup.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from intake.paper.pen import Pen
from quotes.domain.facts import QuoteFacts
from quotes.paper import answer, boat, choices, columns, numbers, prices
from quotes.paper.page import Paper

Say = Callable[[str], str]
MOST_PAGES = 3
# How tightly it may be set: to save a page in comfort, and where it must become shorter.
_COMFORT = (0.92, 0.86, 0.82)
_PRESSED = (0.78, 0.74, 0.7)
_FEWER_NUMBERS = (40, 30, 20, 12, 6, 0)
_BOAT = (
    *(boat.head, boat.who, boat.drawing, boat.shaft_and_gap, boat.notes),
    *(numbers.readings, numbers.photos),
)
_ORDER = (
    *(prices.prices, choices.alloys, choices.options, answer.when),
    *(answer.confirm, columns.terms, columns.cautions),
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

    Parts alone go on one page. What still runs past the third loses numbers, and says so; what no
    three pages hold takes a fourth rather than lose a line. The boat's own page is set as loosely
    as if nothing else were on the paper, where that takes no page more.
    """
    best = _comfortable(paper)
    if best.pages > (MOST_PAGES if paper.facts.shaft else 1):
        best = _pressed(paper, best)
    if best.tight == 1.0:
        return best
    easy = _measured(replace(best, front=1.0), best.tight)
    return easy if easy.pages == best.pages else best


def _comfortable(paper: Paper) -> Paper:
    """Set loosely, or as loosely as saves a page."""
    loose = _measured(paper, 1.0)
    if loose.pages == 1:
        return loose
    close = _measured(paper, _COMFORT[-1])
    if close.pages == loose.pages:
        return loose
    between = (_measured(paper, tight) for tight in _COMFORT[:-1])
    return next((one for one in between if one.pages == close.pages), close)


def _pressed(paper: Paper, best: Paper) -> Paper:
    """Tighter than is comfortable, as far as that helps; then with fewer numbers."""
    wanted = MOST_PAGES if paper.facts.shaft else 1
    tried = [_measured(paper, tight) for tight in _PRESSED]
    best = min((best, *tried), key=lambda one: max(one.pages, wanted))
    for most in _FEWER_NUMBERS:
        if best.pages <= MOST_PAGES:
            break
        best = _measured(replace(paper, most_numbers=most), _PRESSED[-1])
    return best


def _measured(paper: Paper, tight: float) -> Paper:
    """The same paper with its number of pages at this setting."""
    laid = _laid_out(replace(paper, tight=tight))
    return replace(paper, tight=tight, pages=laid.page)


def _laid_out(paper: Paper) -> Paper:
    laid = replace(paper, tight=paper.front or paper.tight)
    for section in _BOAT:
        section(laid)
    laid.tight = paper.tight
    for section in _ORDER:
        section(laid)
    return laid
