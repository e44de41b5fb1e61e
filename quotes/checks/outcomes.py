"""The checks of what became of a shaft: silence is not success, and a lucky fit has a cause."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from catalog.domain.lengths import Length
from intake.checks.base import COMMON_PRACTICE, Mismatch
from intake.domain.verdict import Severity
from quotes.checks.base import check


@dataclass(frozen=True, slots=True)
class OutcomeFacts:
    """``days`` since it was sent, None before; ``told``: somebody said how it fitted;
    ``waits``: a later day was named on which to ask. ``gap`` as fitted, ``predicted`` as made,
    ``u`` one standard uncertainty of that; None where it is not known."""

    days: int | None = None
    told: bool = False
    waits: bool = False
    gap: Length | None = None
    predicted: Length | None = None
    u: Length | None = None


@dataclass(frozen=True, slots=True)
class MissingLimits:
    """``after_days``: of silence since it was sent. Common practice, no source."""

    after_days: int = 30


@dataclass(frozen=True, slots=True)
class ShiftLimits:
    """``shift_in_u``: how many standard uncertainties a fitted gap may lie from the predicted one.

    Two: about one in twenty lies further off by chance (JCGM 100, coverage factor 2).
    """

    shift_in_u: int = 2


@check(
    "outcome-missing",
    Severity.NOTE,
    MissingLimits(),
    ask="With her bolted up, what gap do you see between strut and propeller?",
    source=COMMON_PRACTICE,
)
def it_was_told_how_it_fitted(facts: OutcomeFacts, limits: MissingLimits) -> Iterator[Mismatch]:
    """Nobody has told how it fitted.

    The boat is afloat and the customer busy. Silence is no success: ring and ask.
    """
    if facts.days is None or facts.told or facts.waits or facts.days <= limits.after_days:
        return
    yield Mismatch(("gap_now",), f"Sent {facts.days} days ago, and nothing heard.")


@check(
    "outcome-gap-shift",
    Severity.NOTE,
    ShiftLimits(),
    ask="What did you find different from what we expected?",
    source="own records",
)
def it_fits_as_predicted(facts: OutcomeFacts, limits: ShiftLimits) -> Iterator[Mismatch]:
    """The fitted gap is not the predicted one, though it may fit.

    A silent mistake that another one cancelled: its cause is coded even where the shaft fits.
    """
    if facts.gap is None or facts.predicted is None or not facts.u:
        return
    shift = facts.gap - facts.predicted
    if abs(shift).nm > limits.shift_in_u * facts.u.nm:
        way = "wider" if shift.nm > 0 else "narrower"
        yield Mismatch(
            ("gap_now",),
            f"The gap is {abs(shift).both()} {way} than predicted, more than "
            f"{limits.shift_in_u} standard uncertainties.",
        )
