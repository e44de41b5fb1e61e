"""The gap as it is: can it be, how was it taken, and from where."""

from __future__ import annotations

import math
from collections.abc import Iterator

from intake.checks.base import GAP, LENGTHS, Mismatch, check
from intake.domain.case import Case
from intake.domain.routes import gap_is_loose
from intake.domain.verdict import Severity


@check(
    "gap-now-plausible",
    Severity.ASK,
    ask="What does the space between strut and hub look like: what fits in it?",
    needs=("gap_now",),
    likely={"G-SLID": 8, "O-OLDSHAFT": 4, "B-STRUT": 2},
)
def the_gap_as_it_is_can_be(case: Case) -> Iterator[Mismatch]:
    """The gap found today is none at all, or wider than boats run with.

    The old shaft was long, the strut lost, or the shaft slid aft. A wide gap that boat, hub and
    old shaft leave between them is only noted: the old shaft was wrong, the number is not.
    """
    gap, limits = case.sheet.length("gap_now"), case.limits
    if gap is None:
        return
    if gap > limits.gap_now_stop:
        words = "The gap is wider than any that can be run with."
        yield Mismatch(("gap_now",), words, severity=Severity.STOP)
    elif gap > limits.gap_now_ask:
        severity = Severity.NOTE if _is_borne_out(case) else Severity.ASK
        yield Mismatch(("gap_now",), "The gap is wider than is usual.", severity=severity)
    elif not gap:
        yield Mismatch(("gap_now",), "The hub is said to touch the strut.")


def _is_borne_out(case: Case) -> bool:
    """True where the old shaft, corrected by this gap, is as long as boat and hub ask for."""
    routes = case.routes
    if routes is None or routes.difference is None or not (routes.hub_tail and routes.gap_measured):
        return False
    return abs(routes.difference.nm) <= case.limits.route_z_note * routes.difference.u_nm


@check(
    "gap-state-unknown",
    Severity.ASK,
    ask="When you took the gap, what was bolted up and what was loose?",
    inputs=GAP,
    needs=("gap_now",),
    likely={"G-SLID": 8, "P-SEAT": 2},
)
def the_gap_was_taken_bolted_up(case: Case) -> Iterator[Mismatch]:
    """The gap was taken with the coupling loose or off, or the propeller not pulled home.

    The shaft slides aft and the propeller sits aft of its seat: the gap reads too large. Where no
    length is worked out from the gap it is only noted.
    """
    sheet = case.sheet
    if not gap_is_loose(sheet):
        return
    used = "old_length_face_to_thread" in sheet.readings or "tail_to_thread" in sheet.readings
    words = "The gap was taken with the coupling or the propeller not home."
    yield Mismatch(
        ("gap_now", "coupling_state", "prop_seated"),
        words,
        severity=Severity.ASK if used else Severity.NOTE,
    )


@check(
    "gap-to-blade",
    Severity.ASK,
    ask="Which part of the propeller did your rule touch?",
    inputs=LENGTHS,
    needs=("gap_now", "hub_length", "tail_to_thread", "old_length_face_to_thread"),
    likely={"G-BLADE": 10, "G-SLID": 5},
)
def the_gap_was_taken_to_the_hub(case: Case) -> Iterator[Mismatch]:
    """The gap is wider than tail and hub leave for it, while the tail goes with the old shaft.

    The rule touched the root of a blade, which stands behind the hub's front face.
    """
    routes, band, limits = case.routes, case.band, case.limits
    if routes is None or band is None or not (routes.hub_tail and routes.taped_tail):
        return
    if routes.old is None or routes.strut is None:
        return
    too_wide = routes.hub_tail.nm - routes.taped_tail.nm
    if not limits.blade_least.nm <= too_wide <= limits.blade_most.nm:
        return
    tail, old = case.sheet.readings["tail_to_thread"], case.sheet.readings[_OLD]
    apart = old.length.nm - routes.strut.nm - tail.length.nm
    u = math.hypot(old.u_nm, routes.strut.u_nm, tail.u_nm)
    if abs(apart) <= limits.gap_doubts * u:
        words = "The gap is wider than the tail and the hub leave for it."
        yield Mismatch(("gap_now", "hub_length", "tail_to_thread"), words)


_OLD = "old_length_face_to_thread"


CHECKS = (
    the_gap_as_it_is_can_be,
    the_gap_was_taken_bolted_up,
    the_gap_was_taken_to_the_hub,
)
