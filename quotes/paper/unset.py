"""What customers and the catalogue wrote that our letters cannot set, found before it is drawn.

Our faces have Latin, Greek and Cyrillic. Arabic, Hebrew or Indian letters would need joining and
another direction of writing, Chinese some thousand signs: rather than set them wrong, the paper
says aloud which text is not whole, and where its true spelling stands.
"""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator
from functools import lru_cache

from intake.paper.fonts import SUBSTITUTE, printable
from quotes.domain.facts import QuoteFacts

IN_OTHER_LETTERS = "in letters we cannot print"


@lru_cache(maxsize=512)
def true_words(text: str) -> str:
    """One line of a text as it was written, without what only steers a screen."""
    plain = " ".join(unicodedata.normalize("NFC", text).split())
    steering = ("Cc", "Cf", "Cs")
    return "".join(sign for sign in plain if unicodedata.category(sign) not in steering)


@lru_cache(maxsize=512)
def is_whole(text: str) -> bool:
    """Every sign and every mark of it is set.

    >>> is_whole("Łódź"), is_whole("Ørn m\\u0302"), is_whole("王")
    (True, False, False)
    """
    return text.isascii() or printable(text) == true_words(text)


def is_lost(text: str) -> bool:
    """Fewer than half of its signs are set: a row of empty squares would say nothing.

    >>> is_lost("王 Łódź"), is_lost("محمد"), is_lost("")
    (False, True, False)
    """
    if is_whole(text):
        return False
    signs = [sign for sign in printable(text) if sign != " "]
    return 2 * signs.count(SUBSTITUTE) > len(signs)


def not_whole(facts: QuoteFacts) -> tuple[str, ...]:
    """Names of the texts on this paper that our letters cannot set in full."""
    return tuple(name for name, texts in _texts(facts) if not all(map(is_whole, texts)))


def _texts(facts: QuoteFacts) -> Iterator[tuple[str, list[str]]]:
    yield "the customer's name", [facts.customer]
    yield "the boat's name", [facts.boat]
    yield "your order number", [facts.job]
    yield "the place it goes to", [facts.deliver_to]
    yield "a number as you wrote it", [one.typed for one in facts.readings]
    yield "a line of the price", [text for one in facts.lines for text in (one.text, one.how)]
    yield "a note", [*facts.notes, *(one.why for one in facts.options)]
    yield "the desk's name", [facts.shop]
