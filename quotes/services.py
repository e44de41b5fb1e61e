"""What may be done with a quote: the one door, whichever room behind it does the work."""

from __future__ import annotations

from intake.domain.lifecycle import MoveError
from intake.services import Overtaken
from quotes.answering.services import accept_by_phone, accept_quote, decline_quote, note_opened
from quotes.domain.lifecycle import NotConfirmed, QuoteError, QuoteStatus
from quotes.ending.agreed import statements
from quotes.ending.services import cancel_order, lapse_quote, put_aside, stand_by
from quotes.issuing.again import requote
from quotes.issuing.services import issue_quote, prepare_quote

__all__ = [
    "MoveError",
    "NotConfirmed",
    "Overtaken",
    "QuoteError",
    "QuoteStatus",
    "accept_by_phone",
    "accept_quote",
    "cancel_order",
    "decline_quote",
    "issue_quote",
    "lapse_quote",
    "note_opened",
    "prepare_quote",
    "put_aside",
    "requote",
    "stand_by",
    "statements",
]
