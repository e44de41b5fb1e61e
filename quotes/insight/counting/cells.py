"""A month's facts become its counts. Reads nothing: rows in, sums out."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from quotes.domain.happened.mistakes import UNKNOWN
from quotes.domain.insight.honesty import MILLION, fit_key, z_key
from quotes.domain.insight.measures import Measure
from quotes.insight.models import BarFact, Cell, FlagFact, MismatchFact, RequestFact

M = Measure
Under = tuple[str, str, str, str, str]
_NAMES = ("channel", "method", "layout", "role", "parts")
_LONGEST_KEY = 120


class Tallies:
    """Sums of one month under every circumstance met."""

    def __init__(self, month: str) -> None:
        self.month = month
        self.sums: dict[tuple[Under, Measure, str], list[int]] = {}

    def add(
        self, under: Under, measure: Measure, key: str = "", n: int = 1, amount: int = 0
    ) -> None:
        """Count something."""
        found = self.sums.setdefault((under, measure, key[:_LONGEST_KEY]), [0, 0])
        found[0] += n
        found[1] += amount

    def cells(self) -> list[Cell]:
        """Every sum as a row."""
        return [
            Cell(
                month=self.month,
                measure=measure.value,
                key=key,
                n=n,
                amount=amount,
                **dict(zip(_NAMES, under, strict=True)),
            )
            for (under, measure, key), (n, amount) in self.sums.items()
            if n or amount
        ]


def under(fact: Any) -> Under:
    """The circumstances of a fact."""
    return (fact.channel, fact.method, fact.layout, fact.role, fact.parts)


def count_received(tallies: Tallies, facts: Iterable[RequestFact]) -> None:
    """What counts in the month a request came."""
    for fact in facts:
        at = under(fact)
        tallies.add(at, M.RECEIVED, fact.first_verdict, amount=fact.flags)
        for slug in fact.answered:
            tallies.add(at, M.ANSWERS, slug)
        for words in fact.lacking:
            tallies.add(at, M.LACKING, words)
        if fact.caught:
            tallies.add(at, M.CAUGHT, fact.caught)
            tallies.add(at, M.WRONG_FLAGGED, n=int(fact.flags > 0))
        if fact.audited:
            tallies.add(at, M.AUDITED, n=int(fact.audit_wrong is not None))
            tallies.add(at, M.AUDIT_WRONG, n=int(bool(fact.audit_wrong)))


def count_shipped(tallies: Tallies, facts: Iterable[RequestFact]) -> None:
    """What counts in the month an order left."""
    for fact in facts:
        at, known = under(fact), fact.fits is not None
        tallies.add(at, M.SHIPPED)
        tallies.add(at, M.KNOWN, n=int(known))
        tallies.add(at, M.RIGHT, n=int(fact.fits is True))
        for reason in fact.over:
            tallies.add(at, M.OVER, reason)
            tallies.add(at, M.OVER_KNOWN, reason, n=int(known))
            tallies.add(at, M.OVER_WRONG, reason, n=int(fact.fits is False))
        if not fact.over:
            tallies.add(at, M.PLAIN_KNOWN, n=int(known))
            tallies.add(at, M.PLAIN_WRONG, n=int(fact.fits is False))
        _count_honesty(tallies, at, fact)


def _count_honesty(tallies: Tallies, at: Under, fact: RequestFact) -> None:
    if fact.fits is not None and fact.stated_fit is not None:
        key = fit_key(fact.stated_fit)
        tallies.add(at, M.FIT_STATED, key, amount=round(fact.stated_fit * MILLION))
        tallies.add(at, M.FIT_LANDED, key, n=int(fact.fits))
    if fact.fits and fact.z is not None:
        tallies.add(at, M.Z, z_key(fact.z), amount=round(fact.z * MILLION))
        tallies.add(at, M.Z_SQUARED, amount=round(fact.z * fact.z * MILLION))


def count_flags(tallies: Tallies, flags: Iterable[FlagFact]) -> None:
    """Checks that held a request, and whether they were right."""
    for flag in flags:
        at = under(flag)
        tallies.add(at, M.FLAG, flag.check_id)
        tallies.add(at, M.FLAG_ANSWERED, flag.check_id, n=int(flag.was_right is not None))
        tallies.add(at, M.FLAG_RIGHT, flag.check_id, n=int(flag.was_right is True))
        if flag.asked:
            tallies.add(at, M.ASKED, flag.answer)
            tallies.add(at, M.ASKED_RIGHT, flag.answer, n=int(flag.was_right is True))


def count_mismatches(tallies: Tallies, mismatches: Iterable[MismatchFact]) -> None:
    """Mistakes, by cause and where they were found, by the question, and those seen before."""
    for one in mismatches:
        at, cents = under(one), int(one.cost * 100)
        tallies.add(at, M.MISMATCH, f"{one.cause}|{one.found}", amount=cents)
        if one.answer:
            tallies.add(at, M.BORN, one.answer, amount=cents)
        if one.again and one.cause != UNKNOWN:
            tallies.add(at, M.AGAIN, one.cause)


def count_bars(tallies: Tallies, bars: Iterable[BarFact]) -> None:
    """Bars that were sawn."""
    for bar in bars:
        at = under(bar.fact)
        tallies.add(at, M.BAR_USED, bar.size, amount=bar.used_nm)
        tallies.add(at, M.BAR_KEPT, bar.size, amount=bar.kept_nm)
        tallies.add(at, M.BAR_DROPPED, bar.size, amount=bar.dropped_nm)
