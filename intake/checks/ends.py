"""The propeller end: taper, thread, key; the propeller and its nut are in `propeller`."""

from __future__ import annotations

import math
from collections.abc import Iterator

from catalog.domain.lengths import NM_PER_INCH
from intake.checks import propeller
from intake.checks.base import DIAMETER, Mismatch, check
from intake.domain.case import Case
from intake.domain.limits import Limits
from intake.domain.verdict import Severity

_TAPER = ("taper_two_dia",)


@check(
    "taper-rate",
    Severity.ASK,
    ask="At which two spots did you take the two diameters, and how far apart are they?",
    source="SAE J755 1:16 to 5-1/2 in; ISO 4566 1:10; ISO 8845 1:16",
    needs=_TAPER,
    likely={"I-DIAREAD": 6, "R-FLIP": 3, "S-TAPER": 1},
)
def the_taper_is_a_known_one(case: Case) -> Iterator[Mismatch]:
    """The two diameters and the length between them make no taper that is usual.

    The length was not taken between the same two spots as the diameters.
    """
    taper = _taper(case)
    if taper is not None and taper_rate(case) is None:
        words = "The taper's two diameters and its length do not make a taper that is usual."
        yield Mismatch(_TAPER, words)


@check(
    "taper-system-vs-dia",
    Severity.ASK,
    ask="What does the propeller's hub say about its bore?",
    source="SAE J755; ISO 4566; common practice",
    inputs=DIAMETER,
    needs=_TAPER,
    likely={"I-SYSTEM": 6, "I-OTHER": 3},
)
def taper_and_shaft_are_of_one_system(case: Case) -> Iterator[Mismatch]:
    """An inch shaft with a metric taper, or the reverse.

    The shaft was made anew for a propeller from elsewhere.
    """
    rate, size = taper_rate(case), case.size
    if rate is None or size is None:
        return
    if (size.system == "inch") is not (rate == case.limits.taper_rate_inch):
        words = "The taper is not the one that is usual on a shaft of this system."
        yield Mismatch(("taper_two_dia", "dia_clean"), words)


@check(
    "small-end",
    Severity.ASK,
    ask="What is the diameter just ahead of the threads' undercut?",
    source="SAE J755",
    inputs=DIAMETER,
    needs=_TAPER,
    likely={"I-DIAREAD": 5, "S-TAPER": 3, "I-OTHER": 2},
)
def the_small_end_is_the_standards(case: Case) -> Iterator[Mismatch]:
    """The taper's small end is not the one that goes with this shaft.

    A taper that is worn or was cut again; a hundredth there moves the propeller by a sixth of an
    inch. Where the taper itself is another one, that is asked instead.
    """
    small, end = case.sheet.part("taper_two_dia", "small"), case.end
    if small is None or end is None or taper_rate(case) not in (None, case.limits.taper_rate_inch):
        return
    if abs(small.nm - end.small_end.nm) > case.limits.small_end_near.nm:
        words = "The taper's small end is not the one that goes with a shaft of this size."
        yield Mismatch(("taper_two_dia", "dia_clean"), words)


@check(
    "taper-length",
    Severity.NOTE,
    ask="From where the taper starts to the small end - how long?",
    source="SAE J755; what counts as shorter, common practice",
    inputs=DIAMETER,
    needs=_TAPER,
)
def the_taper_is_as_long_as_usual(case: Case) -> Iterator[Mismatch]:
    """The taper is not as long as the standard's for this shaft.

    A special with a short taper: it can be made, once it is drawn.
    """
    between, end = case.sheet.part("taper_two_dia", "between"), case.end
    if between is None or end is None:
        return
    if abs(between.nm - end.taper_length.nm) > case.limits.taper_length_near.nm:
        words = "The taper is not as long as the standard one for this shaft; it must be drawn."
        yield Mismatch(("taper_two_dia", "dia_clean"), words)


@check(
    "thread-system",
    Severity.ASK,
    ask="How many threads fit in one inch, or in ten millimetres?",
    source="ASME B1.1; ISO 261",
    inputs=DIAMETER,
    needs=("thread",),
    likely={"I-SYSTEM": 8, "I-OTHER": 2},
)
def thread_and_shaft_are_of_one_system(case: Case) -> Iterator[Mismatch]:
    """A metric thread on an inch shaft, or an inch thread on a metric shaft.

    Some inch and metric threads are as wide as each other and differ only in their pitch.
    """
    thread, size = case.sheet.part("thread", "text"), case.size
    if thread and size is not None and thread.system != size.system:
        words = "The propeller nut's thread and the shaft's size are not of one system."
        yield Mismatch(("thread", "dia_clean"), words)


@check(
    "keyway-width",
    Severity.NOTE,
    ask="What key stock slides in and what will not?",
    source="SAE J755",
    inputs=DIAMETER,
    needs=("keyway",),
)
def the_keyway_is_the_standards(case: Case) -> Iterator[Mismatch]:
    """The keyway is not as wide as the standard's for this shaft.

    A little wider is wear; more than that is another key.
    """
    width, end, limits = case.sheet.part("keyway", "width"), case.end, case.limits
    if width is None or end is None:
        return
    wider = width.nm - end.keyway_width.nm
    if abs(wider) > limits.keyway_near.nm:
        worn = limits.keyway_near.nm < wider <= limits.keyway_worn.nm
        words = (
            "The keyway is a little wider than the standard one, as a worn one is."
            if worn
            else "The keyway is not the standard one for a shaft of this size."
        )
        yield Mismatch(("keyway", "dia_clean"), words)


def taper_rate(case: Case) -> float | None:
    """The usual taper that was measured, as fall over length, or None where it is near to none."""
    taper = _taper(case)
    if taper is None:
        return None
    fall, between = taper
    limits = case.limits
    rates = (limits.taper_rate_inch, limits.taper_rate_metric, *limits.taper_rates_met)
    if between <= 0:
        return None
    near = min(rates, key=lambda usual: abs(fall - usual * between))
    off = abs(fall / between - near)
    return near if off <= limits.taper_near_u * _rate_u(near, between, limits) else None


def _rate_u(rate: float, between: float, limits: Limits) -> float:
    """The rate's standard uncertainty: two diameters and the length between, in inches."""
    two = math.sqrt(2.0) * limits.taper_diameters_u.in_inches
    long = rate * limits.taper_between_u.in_inches
    return max(limits.taper_rate_u, math.hypot(two, long) / between)


def _taper(case: Case) -> tuple[float, float] | None:
    """Fall of the diameter and length, in inches, where all three were told."""
    told = case.sheet.parts.get("taper_two_dia", {})
    large, small, between = (told.get(name) for name in ("large", "small", "between"))
    if large is None or small is None or between is None:
        return None
    return (large.nm - small.nm) / NM_PER_INCH, between.nm / NM_PER_INCH


CHECKS = (
    the_taper_is_a_known_one,
    taper_and_shaft_are_of_one_system,
    the_small_end_is_the_standards,
    the_taper_is_as_long_as_usual,
    thread_and_shaft_are_of_one_system,
    the_keyway_is_the_standards,
    *propeller.CHECKS,
)
