"""The gap as it is, and the taper that must not reach into the bearing."""

from __future__ import annotations

from collections.abc import Iterator

from catalog.domain.ends import HUB_OVERHANG
from catalog.domain.lengths import Length
from intake.checks.base import GAP, LENGTHS, Mismatch, check
from intake.domain.case import Case
from intake.domain.routes import gap_is_loose
from intake.domain.verdict import Severity


@check(
    "gap-now-plausible",
    Severity.ASK,
    ask="What does the space between strut and hub look like: what fits in it?",
)
def the_gap_as_it_is_can_be(case: Case) -> Iterator[Mismatch]:
    """The gap found today is none at all, or wider than boats run with.

    The old shaft was long, the strut lost, or the shaft slid aft.
    """
    gap, limits = case.sheet.length("gap_now"), case.limits
    if gap is None:
        return
    if gap > limits.gap_now_stop:
        words = "The gap is wider than any that can be run with."
        yield Mismatch(("gap_now",), words, severity=Severity.STOP)
    elif gap > limits.gap_now_ask:
        yield Mismatch(("gap_now",), "The gap is wider than is usual.")
    elif not gap:
        yield Mismatch(("gap_now",), "The hub is said to touch the strut.")


@check(
    "gap-state-unknown",
    Severity.ASK,
    ask="When you took the gap, what was bolted up and what was loose?",
    inputs=GAP,
)
def the_gap_was_taken_bolted_up(case: Case) -> Iterator[Mismatch]:
    """The gap was taken with the coupling loose or off, or the propeller not pulled home.

    The shaft slides aft and the propeller sits aft of its seat: the gap reads too large.
    """
    if "gap_now" in case.sheet.readings and gap_is_loose(case.sheet):
        words = "The gap was taken with the coupling or the propeller not home."
        yield Mismatch(("gap_now", "coupling_state", "prop_seated"), words)


@check(
    "taper-in-bearing",
    Severity.STOP,
    ask="How long is the hub, and how much tapered shaft shows ahead of it?",
    source="SAE J755 geometry",
    inputs=LENGTHS,
)
def the_taper_stays_out_of_the_bearing(case: Case) -> Iterator[Mismatch]:
    """A short hub on a standard taper would put the taper inside the strut bearing.

    The taper starts C + 1/4 - hub ahead of the hub's face; the gap must be at least that.
    """
    hub = case.sheet.length("hub_length")
    if hub is None or case.end is None or case.gap is None:
        return
    ahead = case.end.taper_length + HUB_OVERHANG - hub
    if ahead > max(case.gap, Length(0)):
        words = "With this hub the standard taper would reach into the strut bearing."
        yield Mismatch(("hub_length",), words)


CHECKS = (
    the_gap_as_it_is_can_be,
    the_gap_was_taken_bolted_up,
    the_taper_stays_out_of_the_bearing,
)
