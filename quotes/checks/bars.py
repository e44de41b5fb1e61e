"""``remnant-waste``: a bar is cut, or a long end lost, where a remnant would have done."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from catalog.domain.lengths import Length, inches
from intake.checks.base import Mismatch
from intake.domain.verdict import Severity
from quotes.checks.base import check
from quotes.domain.nesting import SCRAP_UNDER, SPARE_FROM, SPARE_TO


@dataclass(frozen=True, slots=True)
class BarFacts:
    """A shaft before it is sawn. ``needed`` counts facing and saw cut; ``left`` is what its piece
    has over when all is cut that is to be cut from it, None where no piece is chosen.

    ``remnants``: what is free of each remnant of this metal, that of its own piece included.
    """

    needed: Length
    left: Length | None = None
    on_remnant: bool = False
    remnants: tuple[Length, ...] = ()


@dataclass(frozen=True, slots=True)
class BarLimits:
    """A remnant fits well with so much over; a shorter drop than ``scrap_under`` is scrap; a
    remnant may be this much ``short`` to be worth asking for. Common practice, no source."""

    spare_from: Length = SPARE_FROM
    spare_to: Length = SPARE_TO
    scrap_under: Length = SCRAP_UNDER
    short: Length = inches("1/8")


@check(
    "remnant-waste",
    Severity.NOTE,
    BarLimits(),
    ask="How much room is there to move the length an eighth either way?",
    source="common practice",
)
def nothing_is_wasted(facts: BarFacts, limits: BarLimits) -> Iterator[Mismatch]:
    """A remnant would do, or what is left over is too short to be kept.

    The rack holds the ends of earlier bars; a fraction of an inch may save a whole one.
    """
    if _used_up(facts, limits):
        return
    yield from _fitting(facts, limits)
    yield from _drop(facts, limits)
    yield from _almost(facts, limits)


def _used_up(facts: BarFacts, limits: BarLimits) -> bool:
    """It comes from a remnant that is then used up well."""
    left = facts.left
    return left is not None and facts.on_remnant and (limits.spare_from <= left <= limits.spare_to)


def _fitting(facts: BarFacts, limits: BarLimits) -> Iterator[Mismatch]:
    over = [one - facts.needed for one in facts.remnants]
    for spare in sorted(one for one in over if limits.spare_from <= one <= limits.spare_to)[:1]:
        words = f"A remnant fits with {spare.both()} over. Use it before a bar is cut."
        yield Mismatch(("overall",), words)


def _drop(facts: BarFacts, limits: BarLimits) -> Iterator[Mismatch]:
    if facts.left is not None and Length(0) < facts.left < limits.scrap_under:
        words = (
            f"{facts.left.both()} would be left over, under {limits.scrap_under.both()}: too "
            "short to keep. The price charges such a drop in part."
        )
        yield Mismatch(("overall",), words)


def _almost(facts: BarFacts, limits: BarLimits) -> Iterator[Mismatch]:
    missing = [facts.needed - one for one in facts.remnants]
    for short in sorted(one for one in missing if Length(0) < one <= limits.short)[:1]:
        yield Mismatch(("overall",), f"A remnant is only {short.both()} too short.")
