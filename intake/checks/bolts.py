"""The flange's bolts and the ring in its middle: a pattern that can be, on this disc."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from catalog.domain.lengths import Length
from intake.checks.base import Mismatch, check
from intake.domain.case import Case
from intake.domain.diameter_evidence import thread_in
from intake.domain.flange import bolt_circle_nm
from intake.domain.limits import Limits
from intake.domain.recognised import flange_of, flanges_near, is_coupling_hub, is_near
from intake.domain.verdict import Severity


@dataclass(frozen=True, slots=True)
class _Circle:
    """A bolt circle from the spacing of neighbouring holes, and what goes with the flange."""

    nm: float
    near: float
    usual: tuple[Length, ...]
    opposite: bool

    @property
    def fits(self) -> bool:
        return any(abs(self.nm - circle.nm) <= self.near for circle in self.usual)


def _circle(case: Case) -> _Circle | None:
    """None where the holes, the spacing or the flange is not known."""
    sheet, limits = case.sheet, case.limits
    count, spacing = sheet.part("bolts", "count"), sheet.part("bolts", "spacing")
    if spacing is None or count not in limits.bolt_counts or is_coupling_hub(case):
        return None
    return _made(count, spacing, flanges_near(case), limits)


@lru_cache(maxsize=4096)
def _made(count: int, spacing: Length, flanges: tuple[Length, ...], limits: Limits) -> _Circle:
    circle = bolt_circle_nm(count, spacing)
    u = bolt_circle_nm(count, limits.u_bolt_spacing)
    near = max(limits.bolt_circle_near.nm, limits.bolt_circle_u * u)
    usual = _circles_of(flanges, limits)
    across = any(abs(spacing.nm - known.nm) <= limits.bolt_circle_near.nm for known in usual)
    fits = any(abs(circle - known.nm) <= near for known in usual)
    return _Circle(circle, near, usual, across and not fits and count % 2 == 0)


def _circles_of(flanges: tuple[Length, ...], limits: Limits) -> tuple[Length, ...]:
    """The bolt circles of every usual flange that the disc as measured may be."""
    return tuple(
        circle
        for usual, circle in limits.bolt_circles
        if any(is_near(flange, usual, limits) for flange in flanges)
    )


@check(
    "bolt-circle-from-neighbours",
    Severity.NOTE,
    ask="Between which two holes did you measure?",
    source="geometry",
    holds=("coupling",),
    inputs=("flange_od",),
    needs=("bolts", "flange_od"),
    likely={"I-HOLE": 15},
)
def the_holes_are_neighbours(case: Case) -> Iterator[Mismatch]:
    """The spacing given for neighbouring holes is that of opposite ones.

    Across the middle is the natural way to hold a rule.
    """
    circle = _circle(case)
    if circle is not None and circle.opposite:
        words = "The holes measured look like opposite ones, not neighbours."
        yield Mismatch(("bolts", "flange_od"), words)


@check(
    "bolt-circle-vs-od",
    Severity.ASK,
    ask="Lay paper on the flange and rub it with a pencil: what does the pattern measure?",
    source="common practice; to be confirmed for each gearbox",
    holds=("coupling",),
    inputs=("flange_od",),
    needs=("bolts", "flange_od"),
    likely={"I-HOLE": 15, "I-DIAREAD": 5, "C-MISSING": 5},
)
def the_bolt_circle_is_the_flanges(case: Case) -> Iterator[Mismatch]:
    """The bolt circle is not the one that goes with this flange.

    Another gearbox's pattern, or the wrong holes measured.
    """
    circle = _circle(case)
    if circle is not None and circle.usual and not circle.fits and not circle.opposite:
        words = "The holes do not make the circle that goes with this flange."
        yield Mismatch(("bolts", "flange_od"), words)


@check(
    "bolt-edge",
    Severity.STOP,
    ask="Which of flange width, hole spacing and hole size can you check again?",
    source="geometry; the least edge is common practice",
    holds=("coupling",),
    inputs=("flange_od",),
    needs=("bolts", "flange_od"),
    likely={"I-HOLE": 15, "I-HUB": 5, "I-DIAREAD": 3},
)
def the_holes_lie_inside_the_disc(case: Case) -> Iterator[Mismatch]:
    """Flange, hole spacing and hole size cannot all be true: no metal is left outside the holes.

    The wrong holes were measured, or the neck for the disc. What the tape leaves open is granted.
    """
    circle, reading, limits = _circle(case), case.sheet.readings.get("flange_od"), case.limits
    if circle is None or reading is None or circle.opposite:
        return
    flange = flange_of(case)
    bolt = thread_in(case.sheet.part("bolts", "size") or "")
    hole = bolt.major.nm if bolt else 0
    u_flange = 0.0 if flange else reading.u_nm
    granted = (
        limits.bolt_circle_u * (u_flange**2 + (circle.near / limits.bolt_circle_u) ** 2) ** 0.5
    )
    edge = (flange or reading.length).nm - circle.nm - hole + granted
    if edge / 2 < limits.bolt_edge * hole:
        words = "Holes of this size and spacing do not fit on a disc of this width."
        yield Mismatch(("bolts", "flange_od"), words)


@check(
    "bolt-count",
    Severity.ASK,
    ask="How many bolts are there, and are any of the holes not for bolts?",
    holds=("coupling",),
    needs=("bolts",),
    likely={"I-HOLE": 10},
)
def the_bolts_are_as_many_as_usual(case: Case) -> Iterator[Mismatch]:
    """A flange with that many bolts is not usual.

    Dowels or jacking holes were counted too.
    """
    count = case.sheet.part("bolts", "count")
    if count is not None and count not in case.limits.bolt_counts:
        yield Mismatch(("bolts",), "Flanges with that many bolts are not usual.")


@check(
    "pilot",
    Severity.ASK,
    ask="In the centre of the gearbox flange, what do you see and feel: raised, sunk or flat?",
    source="common practice (SAE J756 was withdrawn in 2005)",
    holds=("coupling",),
    needs=("pilot",),
    likely={"I-HOLE": 5},
)
def the_ring_is_a_ring(case: Case) -> Iterator[Mismatch]:
    """The ring in the middle of the gearbox flange is not described as a ring can be.

    A ring of rust was taken for it, or a flat face was given a width. No standard says how wide
    it is, so only what cannot be is asked.
    """
    pilot, limits = case.sheet.parts.get("pilot"), case.limits
    if not pilot:
        return
    width, depth = pilot.get("width"), pilot.get("depth")
    if pilot.get("shape") == "flat":
        odd = bool(width or depth)
    else:
        low, high = limits.pilot_depth
        odd = depth is not None and not low <= depth <= high
    if odd:
        yield Mismatch(("pilot",), "The ring in the flange's middle is not one that mates.")


CHECKS = (
    the_holes_are_neighbours,
    the_bolt_circle_is_the_flanges,
    the_holes_lie_inside_the_disc,
    the_bolts_are_as_many_as_usual,
    the_ring_is_a_ring,
)
