"""The life of a submission: its statuses and the moves between them."""

from __future__ import annotations

from enum import StrEnum


class Status(StrEnum):
    """Where a submission stands."""

    RECEIVED = "received"
    NEEDS_CALL = "needs_call"
    READY = "ready"
    QUOTED = "quoted"
    ACCEPTED = "accepted"
    DECLINED = "declined"
    LAPSED = "lapsed"
    WITHDRAWN = "withdrawn"


LABELS: dict[Status, str] = {
    Status.RECEIVED: "received",
    Status.NEEDS_CALL: "needs a call",
    Status.READY: "ready to quote",
    Status.QUOTED: "quoted",
    Status.ACCEPTED: "accepted",
    Status.DECLINED: "declined",
    Status.LAPSED: "lapsed",
    Status.WITHDRAWN: "withdrawn",
}

# A corrected answer sends a submission back to be called about or quoted again, from wherever it
# stood; only a withdrawn one is over. Moving to where it already stands writes history: one more
# call that settled nothing, one more version that is still ready, a quote issued again. What is
# ready goes on to accepted where the answer changed nothing that was accepted before.
_BACK = frozenset({Status.NEEDS_CALL, Status.READY, Status.WITHDRAWN})

ALLOWED: dict[Status, frozenset[Status]] = {
    Status.RECEIVED: frozenset({Status.NEEDS_CALL, Status.READY}),
    Status.NEEDS_CALL: _BACK,
    Status.READY: _BACK | {Status.QUOTED, Status.ACCEPTED},
    Status.QUOTED: _BACK | {Status.QUOTED, Status.ACCEPTED, Status.DECLINED, Status.LAPSED},
    Status.ACCEPTED: _BACK,
    Status.DECLINED: _BACK | {Status.QUOTED},
    Status.LAPSED: _BACK | {Status.QUOTED},
    Status.WITHDRAWN: frozenset(),
}

# Work that is not finished: a second sheet for the same boat beside one of these is a duplicate.
OPEN = frozenset({Status.RECEIVED, Status.NEEDS_CALL, Status.READY, Status.QUOTED})


class MoveError(Exception):
    """This submission cannot go there from where it stands."""


def require_move(old: Status, new: Status) -> None:
    """Raise MoveError unless the table allows the move.

    >>> require_move(Status.READY, Status.QUOTED)
    >>> require_move(Status.WITHDRAWN, Status.QUOTED)
    Traceback (most recent call last):
        ...
    intake.domain.lifecycle.MoveError: It is withdrawn, so it cannot become quoted.
    """
    if new not in ALLOWED[old]:
        raise MoveError(f"It is {LABELS[old]}, so it cannot become {LABELS[new]}.")
