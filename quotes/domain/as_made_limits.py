"""What a finished shaft is held to, in words, each limit with its source beside it."""

from __future__ import annotations

from dataclasses import dataclass

from catalog.domain.lengths import Length
from quotes.checks.as_made import ARMY_TAPER, LengthLimits, RunoutLimits, SeatLimits
from quotes.domain.as_made import Accepted
from quotes.domain.thousandths import small, three

_PRACTICE = "common practice"


@dataclass(frozen=True, slots=True)
class Limit:
    """One value's limits and on whose word."""

    box: str
    within: str
    source: str


def limits_of(wanted: Accepted) -> tuple[Limit, ...]:
    """Every box's limit for one accepted shaft."""
    runout, seat = RunoutLimits(), SeatLimits()
    true = f"at most {small(runout.at(wanted.length))}, total indicator reading"
    found = [
        Limit("length", _around(wanted.length), f"± 1/32 in, {_PRACTICE}"),
        Limit("overall", _around(wanted.overall), f"± 1/32 in, {_PRACTICE}"),
        Limit("small_end", *_small_end(wanted)),
        Limit("runout_coupling", true, f"{_PRACTICE}; {ARMY_TAPER}"),
        Limit("runout_bearing", true, _PRACTICE),
        Limit("runout_taper", true, f"{_PRACTICE}; {ARMY_TAPER}"),
        Limit("face", f"at most {small(runout.face)}", _PRACTICE),
        Limit("contact", f"{seat.contact} % or more, heavier at the large end", _PRACTICE),
        Limit("seat", *_seat(wanted, seat)),
    ]
    return tuple(one for one in found if one.within)


def _around(length: Length) -> str:
    off = LengthLimits().length_off
    low, high = length - off, length + off
    metric = f"{_mm(low)} to {_mm(high)} mm"
    return f"{three(low)} to {three(high)} in ({metric})"


def _mm(length: Length) -> str:
    return f"{length.nm / 1_000_000:.1f}"


def _small_end(wanted: Accepted) -> tuple[str, str]:
    if wanted.small_end is None:
        return "", ""
    low, high = wanted.small_end
    return f"{three(low)} to {three(high)} in", "SAE J755"


def _seat(wanted: Accepted, limits: SeatLimits) -> tuple[str, str]:
    if wanted.standoff is None:
        return "", ""
    low, high = wanted.standoff - limits.seat_off, wanted.standoff + limits.seat_off
    words = f"{three(low)} to {three(high)} in, back of the hub to the end of the threads"
    return words, f"within 1/16 in of calculated, {_PRACTICE}"
