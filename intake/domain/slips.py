"""The slips that could be in a sheet: what each would move, by how much, how likely before looking.

A slip moves one reading (the strut distance, the old length, the gap ...) by a mean with a spread;
what that does to a length or to a difference follows from where the reading stands in it.
"""

from __future__ import annotations

import fnmatch
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

from catalog.domain.lengths import NM_PER_INCH, NM_PER_MM
from intake.domain.limits import Limits

OK = "OK"
FAR = frozenset({"X", "I-OTHER"})  # nothing on a sheet with one route can speak to these
_EITHER = ("strut", "old")
_SWAP_SPREAD = 0.1 * NM_PER_INCH
# How surely a slip has its size where that size was measured on the boat.
_GIVEN_SPREAD = 0.15 * NM_PER_INCH
# "Boat less old" grows with the strut distance and shrinks with the old length.
_SIGN = {"old": -1.0}


@dataclass(frozen=True, slots=True)
class Slip:
    """One way a reading may be wrong. ``moves`` says which readings, as multiples of the slip.

    ``mean_nm`` and ``spread_nm`` (one standard deviation) are of the slip; ``weight`` counts in
    the same thousand as the weight of a sheet without any.
    """

    cause: str
    moves: tuple[tuple[str, float], ...]
    mean_nm: float
    spread_nm: float
    weight: float


class Sizes(NamedTuple):
    """What a slip's size depends on, in nanometres; None where the usual size is taken.

    ``feet``: whole feet in the strut distance. ``level`` is X (1 - cos a). ``metric`` tells for
    each reading whether a metric tape was read.
    """

    gearbox_flange: int | None = None
    shaft_flange: int | None = None
    coupling_hub: int | None = None
    barrel: int | None = None
    level: int | None = None
    opening: int | None = None
    feet: int = 3
    nose: int | None = None
    thread_length: int | None = None
    through: int | None = None
    rubber: int | None = None
    swapped: tuple[tuple[str, int], ...] = ()
    metric: frozenset[str] = frozenset()


def learned(
    priors: Mapping[str, float], counts: Mapping[str, int], pseudo: float = 200.0
) -> dict[str, float]:
    """Weights after the desk's own counts: (prior / 5 + n) / (200 + N), in a thousand.

    A Dirichlet prior worth ``pseudo`` sheets; ``counts`` holds how many sheets had each cause,
    "OK" those that had none. Without counts the priors come back as they are.
    """
    total = sum(counts.values())
    whole = sum(priors.values())
    return {
        cause: whole * (prior / whole * pseudo + counts.get(cause, 0)) / (pseudo + total)
        for cause, prior in priors.items()
    }


@lru_cache(maxsize=64)
def weights(limits: Limits) -> Mapping[str, float]:
    """Each cause's weight, "OK" among them, by the limits and what the desk has recorded."""
    priors = {OK: limits.no_slip_weight}
    for cause, rows in limits.slips.items():
        priors[cause] = sum(weight for _, _, weight, _ in rows)
    return learned(priors, limits.cause_counts, limits.pseudo_sheets)


@lru_cache(maxsize=2048)
def possible_slips(
    limits: Limits, sizes: Sizes, evidence: frozenset[str], readings: frozenset[str]
) -> tuple[Slip, ...]:
    """Every slip that could move one of those readings, weighed by the evidence."""
    found = [
        *_listed(limits, sizes, evidence),
        *_unlisted(limits, sizes, evidence),
    ]
    return tuple(slip for slip in found if slip.weight > 0 and _can_move(slip, readings))


def _can_move(slip: Slip, readings: frozenset[str]) -> bool:
    """True where the slip would move one of them; what is wrong of two together needs both."""
    moved = [name in readings for name, _ in slip.moves]
    return all(moved) if slip.cause in FAR else any(moved)


def _listed(limits: Limits, sizes: Sizes, evidence: frozenset[str]) -> Iterator[Slip]:
    now = weights(limits)
    for cause, rows in limits.slips.items():
        prior = sum(weight for _, _, weight, _ in rows)
        scale = now[cause] / prior
        if cause == "R-SWAP" and sizes.swapped:
            yield from _swaps(limits, sizes, evidence, now[cause])
            continue
        for mean, spread, weight, touches in rows:
            places = _EITHER if touches == "either" else (touches,)
            for place in places:
                share = scale * weight / len(places) * _worth(limits, evidence, cause, place)
                yield from _sized(cause, place, mean, spread, share, sizes)


def _swaps(limits: Limits, sizes: Sizes, evidence: frozenset[str], weight: float) -> Iterator[Slip]:
    """Two digits of this very number exchanged, each pair as likely as the next."""
    for place, shift in sizes.swapped:
        share = weight / len(sizes.swapped) * _worth(limits, evidence, "R-SWAP", place)
        yield Slip("R-SWAP", ((place, 1.0),), float(shift), _SWAP_SPREAD, share)


def _unlisted(limits: Limits, sizes: Sizes, evidence: frozenset[str]) -> Iterator[Slip]:
    """Slips of single layouts and ends, and those that no two routes on the sheet would show."""
    if sizes.through is not None:
        weight = limits.rear_weight * _worth(limits, evidence, "D-REAR", "strut")
        spread = limits.rear_spread * NM_PER_INCH
        yield Slip("D-REAR", (("strut", 1.0),), float(-sizes.through), spread, weight)
    if sizes.nose:
        worth = _worth(limits, evidence, "D-PIN", "tail")
        nose, spread = float(sizes.nose), 0.03 * NM_PER_INCH
        in_both = (("tail", 1.0), ("old", 1.0))
        yield Slip("D-PIN", (("tail", 1.0),), nose, spread, limits.nose_in_tail_weight * worth)
        yield Slip("D-PIN", in_both, nose, spread, limits.nose_in_both_weight * worth)
    both = (("strut", 1.0), ("old", 1.0))
    yield Slip("X", both, 0.0, limits.both_wrong_spread * NM_PER_INCH, limits.both_wrong_weight)


def _worth(limits: Limits, evidence: frozenset[str], cause: str, place: str) -> float:
    """What the evidence multiplies this slip's weight by."""
    worth = 1.0
    for seen in evidence:
        for pattern, ratio in limits.evidence[seen].items():
            cause_pattern, _, where = pattern.partition("@")
            if where in ("", place) and fnmatch.fnmatchcase(cause, cause_pattern):
                worth *= ratio
    return worth


def _sized(
    cause: str, place: str, mean: float, spread: float, weight: float, sizes: Sizes
) -> Iterator[Slip]:
    """The slip at the size it has on this boat, with this tape; none where it cannot happen."""
    sign = _SIGN.get(place, 1.0)
    if place in sizes.metric and cause.startswith("R-"):
        for mean_mm, spread_mm, share in _ON_A_METRIC_TAPE.get(cause, _same_on_both)(mean):
            moved = sign * mean_mm * NM_PER_MM
            yield Slip(cause, ((place, 1.0),), moved, spread_mm * NM_PER_MM, weight * share)
        return
    given = _given_size(cause, sizes)
    if given is None:
        given, spread_nm = round(mean * NM_PER_INCH), spread * NM_PER_INCH
    elif given == 0:
        return
    else:
        spread_nm = min(spread * NM_PER_INCH, _GIVEN_SPREAD)
    yield Slip(cause, ((place, 1.0),), sign * given, spread_nm, weight)


def _given_size(cause: str, sizes: Sizes) -> int | None:
    """The signed size of "boat less old" that was measured on this boat, or None."""
    if cause == "R-FTIN":
        return -2 * sizes.feet * NM_PER_INCH
    known = {
        "D-GBACK": sizes.gearbox_flange,
        "D-CBACK": _negative(sizes.shaft_flange),
        "D-HUB": _negative(sizes.coupling_hub),
        "D-FWD": _negative(sizes.barrel),
        "D-MID": _negative(sizes.barrel, 2),
        "D-SLOPE": _negative(sizes.level),
        "D-OPEN": _negative(sizes.opening),
        "D-PIN": _negative(sizes.nose),
        "D-TAPER": sizes.thread_length,
        "D-RUB": sizes.rubber,
    }
    return known.get(cause)


def _negative(size: int | None, parts: int = 1) -> int | None:
    return None if size is None else -size // parts


# On a metric tape the printed marks are centimetres: what an inch is on the other tape, a
# centimetre is here. (mean mm, spread mm, share of the weight) for a mean in inches.
def _same_on_both(mean: float) -> tuple[tuple[float, float, float], ...]:
    return ((mean * 25.4, 6.0, 1.0),)


def _centimetres(mean: float) -> tuple[tuple[float, float, float], ...]:
    return ((mean * 10.0, 0.8, 1.0),)


def _miscounted(mean: float) -> tuple[tuple[float, float, float], ...]:
    """Millimetres miscounted: 1, 2 or 5 for an eighth, a quarter, a half."""
    steps = {0.125: 1.0, 0.25: 2.0, 0.5: 5.0}
    return ((steps[abs(mean)] * (1 if mean > 0 else -1), 0.4, 1.0),)


def _swapped(mean: float) -> tuple[tuple[float, float, float], ...]:
    return ((mean * 10.0, 2.0, 0.5), (mean, 0.8, 0.5))


def _never(_mean: float) -> tuple[tuple[float, float, float], ...]:
    return ()


_ON_A_METRIC_TAPE = {
    "R-BURN-X": _centimetres,
    "R-BURN-O": _centimetres,
    "R-TWICE": _centimetres,
    "R-TEN": _centimetres,
    "R-WHOLE": _centimetres,
    "R-FLIP": _miscounted,
    "R-DECFRAC": _never,
    "R-FTIN": _never,
    "R-SWAP": _swapped,
}
