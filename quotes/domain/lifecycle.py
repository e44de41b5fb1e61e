"""The life of a quote: its statuses and the moves between them."""

from __future__ import annotations

from enum import StrEnum


class QuoteStatus(StrEnum):
    """Where a quote stands. Drafted: a price is missing, so staff must finish it. Cancelled: it
    was accepted, and the order was called off."""

    DRAFTED = "drafted"
    ISSUED = "issued"
    ACCEPTED = "accepted"
    DECLINED = "declined"
    LAPSED = "lapsed"
    REPLACED = "replaced"
    CANCELLED = "cancelled"


_S = QuoteStatus
ALLOWED: dict[QuoteStatus, frozenset[QuoteStatus]] = {
    _S.DRAFTED: frozenset({_S.ISSUED, _S.REPLACED}),
    _S.ISSUED: frozenset({_S.ACCEPTED, _S.DECLINED, _S.LAPSED, _S.REPLACED}),
    _S.ACCEPTED: frozenset({_S.REPLACED, _S.CANCELLED}),
    _S.DECLINED: frozenset({_S.REPLACED}),
    _S.LAPSED: frozenset({_S.REPLACED}),
    _S.REPLACED: frozenset(),
    _S.CANCELLED: frozenset(),
}

# What a newer quote or a newer sheet puts aside. An accepted quote stays as it was agreed, unless
# what it rests on changes.
OPEN = frozenset({_S.DRAFTED, _S.ISSUED})

# What is said to an answer that comes too late, by where the quote stands.
TOO_LATE = {
    _S.DRAFTED: "This quote is not finished yet; we send it to you as soon as it is.",
    _S.ACCEPTED: "This quote was accepted already. Ring us if that should change.",
    _S.DECLINED: "This quote was declined already. Ring us if that should change.",
    _S.REPLACED: "A newer version has taken this quote's place. Please look at that one.",
    _S.LAPSED: "This quote has run out. Ring us, and we make you a new one.",
    _S.ISSUED: "This quote has run out. Ring us, and we make you a new one.",
    _S.CANCELLED: "This order was cancelled. Ring us if that should change.",
}


class QuoteError(Exception):
    """This quote cannot be accepted, declined or issued as things stand; the words say why."""


class NotConfirmed(QuoteError):
    """Something is missing before a quote can be accepted. ``errors``: box -> sentence."""

    def __init__(self, errors: dict[str, str]) -> None:
        super().__init__(" ".join(dict.fromkeys(errors.values())))
        self.errors = errors


def require_move(old: QuoteStatus, new: QuoteStatus) -> None:
    """Raise QuoteError unless the table allows the move.

    >>> require_move(QuoteStatus.ISSUED, QuoteStatus.ACCEPTED)
    >>> require_move(QuoteStatus.REPLACED, QuoteStatus.ACCEPTED)
    Traceback (most recent call last):
        ...
    quotes.domain.lifecycle.QuoteError: This quote is replaced, so it cannot become accepted.
    """
    if new not in ALLOWED[old]:
        raise QuoteError(f"This quote is {old}, so it cannot become {new}.")
