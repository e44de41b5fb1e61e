"""Are the flags right, and what slips by them?"""

from __future__ import annotations

import math
from dataclasses import dataclass

from intake.domain.shares import Z_95, Share, wilson
from quotes.domain.insight.measures import Counts, Measure, by_key, total

AUDIT_WEIGHT = 20  # one unflagged request in twenty is called about


@dataclass(frozen=True, slots=True)
class FlagRow:
    """One check: how often it held a request, and how often it was right of what was answered."""

    check: str
    raised: int
    precision: Share


@dataclass(frozen=True, slots=True)
class Recall:
    """Of the requests with a mistake, those a check had held.

    ``unseen`` is estimated: each mistake an audit call found stands for twenty. ``found_late``:
    found at fitting, no check had held it. ``rate`` is None where nothing was wrong at all.
    """

    flagged: int
    found_late: int
    audited: int
    audit_wrong: int

    @property
    def unseen(self) -> int:
        """Mistakes among the unflagged, as the audit calls let expect them."""
        return self.audit_wrong * AUDIT_WEIGHT

    @property
    def rate(self) -> float | None:
        """The estimate itself."""
        wrong = self.flagged + self.found_late + self.unseen
        return self.flagged / wrong if wrong else None

    @property
    def low(self) -> float:
        """The lower end: as many unseen mistakes as the audit calls just leave open (95 %).

        What was found is counted, not sampled, so the audit sample alone makes the doubt.
        """
        return self._with(wilson(self.audit_wrong, self.audited)[1])

    @property
    def high(self) -> float:
        """The upper end: as few unseen mistakes as they leave open."""
        return self._with(wilson(self.audit_wrong, self.audited)[0])

    def _with(self, audit_share: float) -> float:
        if not self.audited:
            return 1 - audit_share  # nobody was called about: it may be anything
        wrong = self.flagged + self.found_late + audit_share * self.audited * AUDIT_WEIGHT
        return self.flagged / wrong if wrong else 1.0


@dataclass(frozen=True, slots=True)
class Flags:
    """Every check that held anything, the most frequent first; flags per request; recall."""

    rows: tuple[FlagRow, ...]
    whole: FlagRow
    requests: int
    recall: Recall

    @property
    def per_request(self) -> float | None:
        """How many checks hold a request, on the average."""
        return self.whole.raised / self.requests if self.requests else None

    @property
    def per_request_doubt(self) -> float:
        """Half the 95 % interval of that, each flag counted as an event of its own (Poisson)."""
        return Z_95 * math.sqrt(self.whole.raised) / self.requests if self.requests else 0.0


def flags(counts: Counts) -> Flags:
    """Precision by check, flags per request, and recall."""
    raised = by_key(counts, Measure.FLAG)
    rows = tuple(_row(counts, check, raised[check].n) for check in raised)
    whole = _row(counts, None, sum(row.raised for row in rows))
    return Flags(rows, whole, total(counts, Measure.RECEIVED).n, _recall(counts))


def _row(counts: Counts, check: str | None, raised: int) -> FlagRow:
    answered = total(counts, Measure.FLAG_ANSWERED, key=check).n
    right = Share(total(counts, Measure.FLAG_RIGHT, key=check).n, answered)
    return FlagRow(check or "", raised, right)


def _recall(counts: Counts) -> Recall:
    flagged = total(counts, Measure.WRONG_FLAGGED).n
    wrong = total(counts, Measure.CAUGHT).n
    audited, at_audit = (total(counts, one).n for one in (Measure.AUDITED, Measure.AUDIT_WRONG))
    # What an audit call found stands for twenty already, and is not counted once more.
    return Recall(flagged, max(wrong - flagged - at_audit, 0), audited, at_audit)
