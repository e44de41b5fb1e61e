"""What is counted by month, by name: the one list that counting and reading agree on.

Every count is kept for the circumstances it happened under (channel, method, layout, role, parts),
so that each may be filtered. "Key" tells what it was counted under; "amount" what is summed.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from enum import StrEnum


class Measure(StrEnum):
    """A thing that is counted. In brackets: the month it counts in, the key, the amount."""

    RECEIVED = "received"  # requests (came; first verdict; flags that held them)
    FLAG = "flag"  # checks that held a request, each once (came; check)
    FLAG_ANSWERED = "flag_answered"  # of them: somebody answered (came; check)
    FLAG_RIGHT = "flag_right"  # of them: the value changed or a part was avoided (came; check)
    ASKED = "asked"  # flags on which a question was asked on a call (came; answer)
    ASKED_RIGHT = "asked_right"  # of them: a true error was found (came; answer)
    ANSWERS = "answers"  # requests that had this answer (came; answer)
    BORN = "born"  # mistakes made in this answer (came to light; answer; cost in cents)
    MISMATCH = "mismatch"  # mistakes (came to light; "cause|found"; cost in cents)
    AGAIN = "again"  # mistakes whose cause was seen in the 90 days before (came to light; cause)
    CAUGHT = "caught"  # requests with a mistake (came; entry, call, shop or boat)
    WRONG_FLAGGED = "wrong_flagged"  # requests with a mistake that a check had held (came)
    AUDITED = "audited"  # unflagged requests that were called about at random (came)
    AUDIT_WRONG = "audit_wrong"  # of them: something was wrong (came)
    SHIPPED = "shipped"  # orders that left (left)
    KNOWN = "known"  # of them: it was told whether it fitted (left)
    RIGHT = "right"  # of them: fitted with no rework (left)
    FIT_STATED = "fit_stated"  # known, with a stated fit (left; bin; stated, in millionths)
    FIT_LANDED = "fit_landed"  # of them: it fitted (left; bin)
    Z = "z"  # fitted gap less predicted over u, no mistake known (left; bin; z in millionths)
    Z_SQUARED = "z_squared"  # the same, squared (left; ""; z squared in millionths)
    OVER = "over"  # releases over a flag (left; reason)
    OVER_KNOWN = "over_known"  # of them: known (left; reason)
    OVER_WRONG = "over_wrong"  # of them: did not fit (left; reason)
    PLAIN_KNOWN = "plain_known"  # known, released over nothing (left)
    PLAIN_WRONG = "plain_wrong"  # of them: did not fit (left)
    CALL = "call"  # calls made (call)
    LACKING = "lacking"  # asked for and not in the catalogue (came; in words)
    BAR_USED = "bar_used"  # bars sawn (sawn; size; nanometres into shafts)
    BAR_KEPT = "bar_kept"  # the same (sawn; size; nanometres back in the rack)
    BAR_DROPPED = "bar_dropped"  # the same (sawn; size; nanometres of scrap)


@dataclass(frozen=True, slots=True)
class Counted:
    """How many, and the sum that goes with them."""

    n: int = 0
    amount: int = 0

    def __add__(self, other: Counted) -> Counted:
        return Counted(self.n + other.n, self.amount + other.amount)


NOTHING = Counted()
# What a page is given: (month, measure, key) -> how many.
Counts = Mapping[tuple[str, Measure, str], Counted]


def total(counts: Counts, measure: Measure, *, month: str = "", key: str | None = None) -> Counted:
    """All of a measure, in one month or all, under one key or all.

    >>> counts = {("2026-04", Measure.SHIPPED, ""): Counted(3)}
    >>> total(counts, Measure.SHIPPED).n, total(counts, Measure.KNOWN).n
    (3, 0)
    """
    return sum(
        (
            counted
            for (when, what, under), counted in counts.items()
            if what == measure and month in ("", when) and key in (None, under)
        ),
        NOTHING,
    )


def by_key(counts: Counts, measure: Measure) -> dict[str, Counted]:
    """A measure under each of its keys, all months together, most first."""
    return _grouped((key, counted) for (_, what, key), counted in counts.items() if what == measure)


def by_month(counts: Counts, measure: Measure) -> dict[str, Counted]:
    """A measure in each month that has any, all keys together, oldest first."""
    found = _grouped((month, one) for (month, what, _), one in counts.items() if what == measure)
    return dict(sorted(found.items()))


def _grouped(pairs: Iterable[tuple[str, Counted]]) -> dict[str, Counted]:
    found: dict[str, Counted] = {}
    for key, counted in pairs:
        found[key] = found.get(key, NOTHING) + counted
    return dict(sorted(found.items(), key=lambda item: (-item[1].n, item[0])))
