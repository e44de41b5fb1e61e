"""Where a mistake is made and found, and whether the same came before."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from intake.domain.limits import DEFAULT_LIMITS

AGAIN_DAYS = 90
UNKNOWN = "X"
# The stage a family of causes is made at; the words are those of a case (common practice).
BORN = {
    **dict.fromkeys("URDGPEI", "measuring"),
    **dict.fromkeys("OB", "boat"),
    "C": "catalogue",
    "K": "desk",
    "S": "shop",
    "T": "way",
    "F": "fitting",
    UNKNOWN: "unknown",
}
# A mistake comes to light at one of four places, the first of which counts for a request.
CAUGHT = {
    "before_quote": "call",
    "before_cut": "shop",
    "before_ship": "shop",
    "at_fitting": "boat",
}
_PLACES = ("entry", "call", "shop", "boat")
_ROUTE_ANSWER = {
    "strut": "face_to_strut_aft",
    "old": "old_length_face_to_thread",
    "gap": "gap_now",
    "tail": "tail_to_thread",
    "p": "hub_length",
}


def born_at(cause: str) -> str:
    """The stage a cause is made at.

    >>> born_at("D-CBACK"), born_at("C-WRONGDIM"), born_at("X")
    ('measuring', 'catalogue', 'unknown')
    """
    return BORN.get(cause[:1], BORN[UNKNOWN])


def answer_of(cause: str) -> str:
    """The question a cause is made in, where the slip names one; "" where it may be any."""
    rows = DEFAULT_LIMITS.slips.get(cause, ())
    return next((_ROUTE_ANSWER[row[3]] for row in rows if row[3] in _ROUTE_ANSWER), "")


def first_caught(places: Iterable[str]) -> str:
    """The cheapest of the places mistakes of one request were caught at; "" of none."""
    found = set(places)
    return next((place for place in _PLACES if place in found), "")


@dataclass(frozen=True, slots=True)
class Seen:
    """One mistake as it is compared with others."""

    key: int
    on: date
    cause: str
    customer: int | None
    family: str
    answer: str


def repeats(mistakes: Iterable[Seen]) -> dict[int, str]:
    """For each mistake whether its cause was seen in the ninety days before: c, f, q.

    c: for the same customer, f: for the same hull family, q: in the same question. Two of one
    request's do not repeat each other on the same day. A cause that is not known repeats nothing.
    """
    ordered = sorted(mistakes, key=lambda one: (one.on, one.key))
    last: dict[tuple[str, str, object], date] = {}
    found: dict[int, str] = {}
    for same_day in _by_day(ordered):
        for one in same_day:
            before = {letter: last.get((one.cause, letter, key)) for letter, key in _keys(one)}
            found[one.key] = "".join(c for c, day in before.items() if _is_recent(day, one.on))
        for one in same_day:
            last.update({(one.cause, letter, key): one.on for letter, key in _keys(one)})
    return found


def _by_day(ordered: list[Seen]) -> Iterable[list[Seen]]:
    days: dict[date, list[Seen]] = {}
    for one in ordered:
        days.setdefault(one.on, []).append(one)
    return days.values()


def _keys(one: Seen) -> list[tuple[str, object]]:
    if one.cause == UNKNOWN:
        return []
    told = (("c", one.customer), ("f", one.family), ("q", one.answer))
    return [(letter, key) for letter, key in told if key]


def _is_recent(before: date | None, now: date) -> bool:
    return before is not None and now - before <= timedelta(days=AGAIN_DAYS)
