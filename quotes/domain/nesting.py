"""Which bar or remnant each shaft is sawn from, with the least lost.

Every shaft takes its own saw cut: the length a job needs is the finished length with its facing
and one kerf (``bar_needed``), so pieces are never overfilled by a cut that was forgotten.

A plan is judged by five numbers, the first that differs decides (``Score``):

1. jobs that nothing was found for,
2. jobs that are not surely of one heat with the other shaft of their pair (of three, with the
   first of them),
3. whole bars that are cut into (remnants first),
4. inches left as scrap: drops under 24 in, but not what a remnant has over by 1 to 6 in, since
   such a remnant is used up well (common practice, no source: `remnant-waste`),
5. what is left is worth the more the longer its pieces are: the sum of their squares.

``plan`` tries all ways that could be better, up to a number of steps, and says whether it did.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from itertools import groupby

from quotes.domain.nesting_facts import (
    KERF,
    SCRAP_UNDER,
    SPARE_FROM,
    SPARE_TO,
    STEPS,
    Demand,
    Plan,
    Rod,
    Score,
    bar_needed,
)
from quotes.domain.nesting_search import Search

__all__ = [
    "KERF",
    "SCRAP_UNDER",
    "SPARE_FROM",
    "SPARE_TO",
    "STEPS",
    "Demand",
    "Plan",
    "Rod",
    "Score",
    "bar_needed",
    "judged",
    "plan",
]


def plan(demands: Iterable[Demand], rods: Iterable[Rod], *, steps: int = STEPS) -> Plan:
    """The best plan found; each metal for itself, ``steps`` for each.

    Jobs and pieces must have different names each. Never raises for lack of metal: what nothing
    was found for is ``unserved``.
    """
    by_metal: dict[str, list[Rod]] = {}
    for rod in rods:
        by_metal.setdefault(rod.metal, []).append(rod)
    wanted = sorted(demands, key=lambda one: one.metal)
    plans = [
        Search(list(group), by_metal.get(metal, []), steps).plan()
        for metal, group in groupby(wanted, key=lambda one: one.metal)
    ]
    return _joined(plans)


def judged(demands: Iterable[Demand], rods: Iterable[Rod], cuts: Mapping[str, str]) -> Plan:
    """What a given way of cutting costs; a job whose piece is not there or too short is unserved.

    For one metal or several, as ``plan``; nothing is said of whether it is the best.
    """
    by_metal: dict[str, list[Rod]] = {}
    for rod in rods:
        by_metal.setdefault(rod.metal, []).append(rod)
    wanted = sorted(demands, key=lambda one: one.metal)
    return _joined(
        [
            Search(list(group), by_metal.get(metal, []), 0).as_given(cuts)
            for metal, group in groupby(wanted, key=lambda one: one.metal)
        ]
    )


def _joined(plans: Sequence[Plan]) -> Plan:
    return Plan(
        cuts={job: piece for one in plans for job, piece in one.cuts.items()},
        left={piece: left for one in plans for piece, left in one.left.items()},
        unserved=tuple(job for one in plans for job in one.unserved),
        apart=tuple(job for one in plans for job in one.apart),
        score=sum((one.score for one in plans), Score()),
        proven=all(one.proven for one in plans),
    )
