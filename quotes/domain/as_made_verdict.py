"""What becomes of a finished shaft: it passes, the desk is rung, it is shortened or scrapped."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from catalog.domain.lengths import Length
from intake.checks.base import Mismatch
from quotes.checks.as_made import (
    ARMY_TAPER,
    LengthLimits,
    how_it_seats,
    how_true_it_runs,
    length_as_made,
)
from quotes.checks.base import ShopCheck
from quotes.domain.as_made import PLACES, Made
from quotes.domain.thousandths import off, small, three


class Verdict(StrEnum):
    """What the machinist does next."""

    PASS = "pass"  # noqa: S105  (no password)
    RING = "ring"
    SHORTEN = "shorten"
    SCRAP = "scrap"


WORDS = {
    Verdict.PASS: "Pass",
    Verdict.RING: "Ring the desk",
    Verdict.SHORTEN: "Shorten, or scrap",
    Verdict.SCRAP: "Scrap: ring the desk",
}


@dataclass(frozen=True, slots=True)
class Found:
    """One thing that is not as it should be: which check, what, and what to ask."""

    check: str
    words: str
    ask: str


@dataclass(frozen=True, slots=True)
class Judged:
    """A verdict with its reasons. ``shorten_by`` is nothing where shortening does not help;
    ``notes`` are worth knowing and hold nothing up."""

    verdict: Verdict
    found: tuple[Found, ...]
    advice: tuple[str, ...]
    notes: tuple[str, ...]
    shorten_by: Length


def judge(made: Made, limits: LengthLimits | None = None) -> Judged:
    """Judge a finished shaft by checks 124 to 126, the small end's limits and what is missing."""
    limits = limits or LengthLimits()
    verdict, advice, shorten_by = _by_length(made, limits)
    found = [
        *(_found(length_as_made, one) for one in length_as_made.found(made, limits)),
        *(_found(how_true_it_runs, one) for one in how_true_it_runs.found(made)),
        *(_found(how_it_seats, one) for one in how_it_seats.found(made)),
    ]
    asks = [*_small_end(made), *_not_measured(made)]
    if verdict == Verdict.PASS and (found or asks):
        verdict = Verdict.RING
    return Judged(verdict, tuple(found), (*advice, *asks), tuple(_notes(made)), shorten_by)


def _found(check: ShopCheck[Made, Any], one: Mismatch) -> Found:
    return Found(check.id, one.message, check.ask)


def _by_length(made: Made, limits: LengthLimits) -> tuple[Verdict, tuple[str, ...], Length]:
    """What the length alone says: a long shaft can be shortened, a short one cannot be mended."""
    none = Length(0)
    if not length_as_made.found(made, limits):
        return Verdict.PASS, (), none
    if made.is_overall:
        words = "That is about the overall length. Was it taken to the tip of the nose?"
        return (
            Verdict.RING,
            (words, "Measure to the end of the threads before anything else."),
            none,
        )
    if made.accepted.left_long and made.still_on.nm >= 0:
        words = (
            f"The yard has {off(made.still_on)} to face off, not {off(made.accepted.left_long)}. "
            "The desk tells the yard first."
        )
        return Verdict.RING, (words,), none
    fit = made.fit
    if fit is None:
        return Verdict.RING, ("No gap was predicted for this boat; the desk decides.",), none
    if fit >= limits.fit:
        words = (
            f"It may still go: {percent(fit)} for a fair gap, {percent(limits.fit)} is wanted. "
            "The desk tells the customer first."
        )
        return Verdict.RING, (words,), none
    poor = f"{percent(fit)} for a fair gap; {percent(limits.fit)} is wanted."
    if made.longer.nm > 0:
        return Verdict.SHORTEN, (poor, *_shortened(made)), made.longer
    return Verdict.SCRAP, (poor, "It is short, and a short shaft cannot be mended."), none


def _shortened(made: Made) -> Iterator[str]:
    """What facing the surplus off the coupling's end would do."""
    by = made.longer
    gap = made.gap - by if made.gap is not None else None
    fit = made.fit_at(gap)
    if gap is None or fit is None:
        return
    yield (
        f"A long shaft can be shortened: {off(by)} faced off at the coupling end brings it to "
        f"the accepted length; the gap is then {both_ways(gap)}, {percent(fit)} for a fair one."
    )
    yield "Shorten only after the desk has agreed; then inspect it again."


def _small_end(made: Made) -> Iterator[str]:
    limits, size = made.accepted.small_end, made.made.small_end
    if size is None or limits is None or limits[0] <= size <= limits[1]:
        return
    rate = "16" if made.accepted.system == "inch" else "10"
    by = size - (made.accepted.middle or size)
    yield (
        f"The small end measures {three(size)} in; {three(limits[0])} to {three(limits[1])} in is "
        f"allowed. Off by {off(by)}, it moves the gap {rate} times that."
    )


def _not_measured(made: Made) -> Iterator[str]:
    """What a shaft must have been measured for before it passes."""
    one, missing = made.made, []
    if made.accepted.small_end and one.small_end is None:
        missing.append("the small end")
    missing += [
        f"run-out at the {words}"
        for name, words in PLACES.items()
        if name not in (one.runout or {})
    ]
    if made.accepted.has_coupling and one.face is None:
        missing.append("run-out of the coupling's face")
    if one.contact is None:
        missing.append("contact on the taper")
    if missing:
        yield f"Not measured: {', '.join(missing)}."


def _notes(made: Made) -> Iterator[str]:
    """What other authorities would say of the tapers; and overall against the length."""
    if made.accepted.left_long:
        yield f"Left long: the gap is the one once {off(made.accepted.left_long)} is faced off."
    for name in ("coupling", "taper"):
        size = (made.made.runout or {}).get(name)
        if size is not None and size.nm >= 76_200 and not size.nm > 127_000:
            yield f"{small(size)} at the {PLACES[name]}: {ARMY_TAPER}."
    overall = made.made.overall
    if overall is not None:
        by = (overall - made.made.length) - (made.accepted.overall - made.accepted.length)
        if abs(by) > LengthLimits().length_off:
            yield f"Overall and length do not go together: {off(by)} apart from the sheet's."


def percent(share: float) -> str:
    """A chance in words, never rounded up to a certainty.

    >>> percent(0.9989), percent(0.03), percent(0.99999)
    ('99.9 %', '3.0 %', '99.9 %')
    """
    return f"{min(int(share * 1000 + 0.5), 999) / 10:.1f} %"


def both_ways(length: Length) -> str:
    """A gap in decimals of both systems, with its sign: ``0.750 in (19.05 mm)``."""
    sign = "-" if length.nm < 0 else ""
    return f"{sign}{off(length)}"
