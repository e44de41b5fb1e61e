"""Counts of a season, intervals, and bins; two halves of a season add up to the whole."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field
from functools import partial

from intake.season.customers import Customer
from intake.season.desks import Played, by_fixed_tail, by_old_length

FIT_EDGES = (0.90, 0.97, 0.985, 0.995)
CAUSE_EDGES = (0.30, 0.50, 0.70, 0.85)
Key = tuple[str, ...]


def bin_of(probability: float, edges: Iterable[float]) -> int:
    """The bin of a probability: 0 below the first edge."""
    return sum(probability >= edge for edge in edges)


@dataclass(slots=True)
class Tally:
    """Everything that is counted, under keys of words."""

    counts: Counter[Key] = field(default_factory=Counter)
    sums: dict[Key, float] = field(default_factory=partial(defaultdict, float))

    def add(self, *key: str, times: int = 1) -> None:
        """Count something."""
        self.counts[key] += times

    def n(self, *key: str) -> int:
        """How often it was counted."""
        return self.counts[key]

    def under(self, *start: str) -> dict[str, int]:
        """All counts one word below a key, most first."""
        at = len(start)
        found = {
            key[at]: n
            for key, n in self.counts.items()
            if len(key) == at + 1 and key[:at] == start and n
        }
        return dict(sorted(found.items(), key=lambda item: (-item[1], item[0])))

    def add_all(self, other: Tally) -> None:
        """Take another part of the season in."""
        self.counts.update(other.counts)
        for key, total in other.sums.items():
            self.sums[key] += total

    def calibrate(self, name: str, edges: tuple[float, ...], stated: float, is_true: bool) -> None:
        """One statement of a probability, and whether it came true."""
        place = str(bin_of(stated, edges))
        self.counts[name, place, "n"] += 1
        self.counts[name, place, "true"] += is_true
        self.sums[name, place] += stated


def gap_error(customer: Customer) -> float:
    """How far the greatest slip moves the gap of its own route, in inches."""
    errors = [0.0]
    for mistake in customer.mistakes:
        if mistake.rewrite:
            errors.append(customer.first[mistake.touches].pen)
        elif mistake.touches == "both":
            errors.append(customer.boat.x * (mistake.scale - 1))
        else:
            errors += mistake.off.values()
    return max(errors, key=abs)


def moves_out(customer: Customer) -> bool:
    """True where a slip alone takes its own route's gap out of the band."""
    boat, error = customer.boat, gap_error(customer)
    return not (boat.is_fair(boat.goal + error) and boat.is_fair(boat.goal - error))


def count(tally: Tally, customer: Customer, played: Played) -> None:
    """Enter one sheet."""
    kind = "two" if customer.how.is_two_routes else "one"
    boat = customer.boat
    tally.add(kind, "sheets")
    tally.add(kind, "slips", customer.kind)
    tally.add("system", boat.system)
    for desk, cut in (("a", by_old_length(customer)), ("b", by_fixed_tail(customer))):
        tally.add(kind, desk, "wrong", times=not boat.is_fair(boat.gap_of(cut)))
    _first_sight(tally, kind, customer, played)
    _after_questions(tally, kind, customer, played)
    _named_cause(tally, customer, played)


def _first_sight(tally: Tally, kind: str, customer: Customer, played: Played) -> None:
    released = played.first_call == "release"
    tally.add(kind, "first", played.first_call)
    if released and not played.first_is_right:
        tally.add(kind, "first wrong", customer.kind)
    if customer.is_clean:
        tally.add(kind, "clean")
        if not released:
            tally.add(kind, "clean asked")
            tally.add(kind, "clean asked by", played.held_by[0] if played.held_by else "nothing")
            tally.add(kind, "clean asked, half band", f"{customer.boat.half_band:.3f}")
            tally.add(kind, "clean asked, x by", customer.how.x or "old only")
    elif moves_out(customer):
        tally.add(kind, "out", customer.kind)
        tally.add(kind, "out caught", customer.kind, times=not released)
    if played.first_fit is not None:
        tally.calibrate(f"first {kind}", FIT_EDGES, played.first_fit, played.first_is_right)
        tally.calibrate("first", FIT_EDGES, played.first_fit, played.first_is_right)


def _after_questions(tally: Tally, kind: str, customer: Customer, played: Played) -> None:
    tally.add(kind, "questions", times=played.questions)
    tally.add(kind, "asked in all", str(played.questions))
    for slug in played.asked:
        tally.add(kind, "asked for", slug)
    if not played.released:
        tally.add(kind, "held")
        tally.add(kind, "held kind", customer.kind)
        if customer.is_clean:
            last = played.held_at_last[0] if played.held_at_last else "cannot be read"
            tally.add(kind, "clean held by", last)
            tally.add(kind, "clean held, x by", customer.how.x or "old only")
        return
    tally.add(kind, "released")
    tally.add(kind, "questions of released", times=played.questions)
    tally.add(kind, "clean released", times=customer.is_clean)
    tally.calibrate("released", FIT_EDGES, played.fit, played.is_right)
    tally.calibrate(f"released {kind}", FIT_EDGES, played.fit, played.is_right)
    if not played.is_right:
        tally.add(kind, "wrong")
        tally.add(kind, "wrong kind", customer.kind)


def _named_cause(tally: Tally, customer: Customer, played: Played) -> None:
    """Two-route sheets with one slip, or none, where causes are named."""
    if not customer.how.is_two_routes or not played.likely or customer.kind == "double":
        return
    ranked = sorted(played.likely, key=lambda pair: -pair[1])
    names = [cause for cause, _ in ranked]
    hit = names[0] == customer.kind
    tally.calibrate("cause", CAUSE_EDGES, ranked[0][1], hit)
    if ranked[0][1] > 0.5:
        tally.add("cause half")
        tally.add("cause half top 1", times=hit)
        tally.add("cause half top 3", times=customer.kind in names[:3])
        if not hit:
            tally.add("cause half missed", f"{customer.kind} named {names[0]}")
