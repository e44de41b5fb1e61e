"""Releases over a flag, by the reason that was given, never by who gave it."""

from __future__ import annotations

from dataclasses import dataclass

from intake.domain.shares import Share
from quotes.domain.insight.measures import Counts, Measure, by_key, total


@dataclass(frozen=True, slots=True)
class OverRow:
    """One reason: how many orders left over it, and how many of those heard of did not fit."""

    reason: str
    released: int
    misfits: Share


@dataclass(frozen=True, slots=True)
class Overrides:
    """Each reason, all of them, and the rest: orders that left over nothing."""

    rows: tuple[OverRow, ...]
    over: Share
    rest: Share


def overrides(counts: Counts) -> Overrides:
    """Misfits of what was released over a flag, beside those of everything else."""
    released = by_key(counts, Measure.OVER)
    rows = tuple(OverRow(why, one.n, _misfits(counts, why)) for why, one in released.items())
    rest = Share(total(counts, Measure.PLAIN_WRONG).n, total(counts, Measure.PLAIN_KNOWN).n)
    return Overrides(rows, _misfits(counts, None), rest)


def _misfits(counts: Counts, why: str | None) -> Share:
    known = total(counts, Measure.OVER_KNOWN, key=why).n
    return Share(total(counts, Measure.OVER_WRONG, key=why).n, known)
