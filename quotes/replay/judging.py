"""Judging sheets again, many at once: pure, so that any process can do it. No Django here."""

from __future__ import annotations

import json
import logging
from collections.abc import Mapping, Sequence
from typing import NamedTuple

from catalog.domain.stock import Stock
from intake.domain.history import History
from intake.domain.kept_history import history_again
from intake.domain.limit_values import limits_from
from intake.domain.limits import Limits
from intake.domain.next_question import next_question
from intake.domain.reading import read_sheet
from intake.domain.sheet import Sheet, SheetErrors
from intake.domain.verdict import Verdict
from intake.evaluate import evaluate
from quotes.domain.replay import Judged, judged

log = logging.getLogger(__name__)


class Rules(NamedTuple):
    """A set of limits as it is kept: name, values, and the causes learned."""

    name: str
    values: Mapping[str, str]
    counts: Mapping[str, int]

    def limits(self) -> Limits:
        """The set, built."""
        return limits_from(self.name, self.values, self.counts)


class Task(NamedTuple):
    """What a replay judges by: today's stock, the limits in force, and the changed ones."""

    stock: Stock
    base: Rules
    changed: Rules

    def is_same(self, other: Task) -> bool:
        """Whether what was built for the other serves this one too."""
        rules = self.base == other.base and self.changed == other.changed
        return self.stock is other.stock and rules


class Given(NamedTuple):
    """One first sheet as it is stored: body, facts beside it and the other side's body as text.

    ``erased``: who asked is forgotten, so nobody can be missed. ``as_base``: it was judged by the
    limits in force, so the stored verdict is theirs.
    """

    body: str
    beside: str
    other_side: str
    day: str
    erased: bool
    stored: Judged
    as_base: bool


class Replayed(NamedTuple):
    """One sheet judged by both sets, where it is not simply as it was."""

    before: Judged
    after: Judged
    question: str
    drifted: bool


UNREAD = False  # it cannot be read any more
Answer = Replayed | bool | None  # None: as it was stored


class Judge:
    """Two sets of limits and the stock, each built once: what is computed for them is kept."""

    def __init__(self, task: Task) -> None:
        self.stock = task.stock
        self.base, self.changed = task.base.limits(), task.changed.limits()

    def many(self, batch: Sequence[Given]) -> list[Answer]:
        """Each sheet in order. One that stumbles is said to be unread and costs no other."""
        return [self._one(given) for given in batch]

    def _one(self, given: Given) -> Answer:
        try:
            sheet = read_sheet(json.loads(given.body), contact_needed=not given.erased)
            return self._judged(sheet, _history(given), given)
        except SheetErrors:
            return UNREAD
        except Exception:  # a season is not lost by one sheet; it is counted, and told
            log.exception("A sheet could not be judged again")
            return UNREAD

    def _judged(self, sheet: Sheet, history: History, given: Given) -> Answer:
        verdict = self._by(self.changed, sheet, history)
        after = judged(verdict)
        if given.as_base and after == given.stored:
            return None
        before = judged(self._by(self.base, sheet, history))
        drifted = before != given.stored
        if before == after:
            return Replayed(before, after, "", drifted) if drifted else None
        # Looked for only where it matters: it costs as much as a few checks.
        asked = next_question(verdict.case, verdict.findings) if after.is_held else None
        return Replayed(before, after, asked.ask if asked else "", drifted)

    def _by(self, limits: Limits, sheet: Sheet, history: History) -> Verdict:
        return evaluate(sheet, self.stock, history, limits, with_next_question=False)


def _history(given: Given) -> History:
    """What was known then. Of sheets from before it was kept, only the day is."""
    kept = json.loads(given.beside) if given.beside else {"today": given.day}
    return history_again(kept, _other_side(given.other_side))


def _other_side(body: str) -> Sheet | None:
    try:
        return read_sheet(json.loads(body)) if body else None
    except SheetErrors:
        return None
