"""The one pure function that judges: a sheet and the facts around it in, a verdict out.

The live page, the dry-run call, the stored submission and a replayed season all call it.
"""

from __future__ import annotations

import hashlib
from collections.abc import Iterable
from dataclasses import replace
from functools import lru_cache

from catalog.domain.stock import Stock
from intake.checks import CHECKS
from intake.checks.base import Check
from intake.domain.case import Case, build_case
from intake.domain.grading import not_off, regraded
from intake.domain.history import History
from intake.domain.limits import DEFAULT_LIMITS, Limits
from intake.domain.next_question import next_question
from intake.domain.sheet import Sheet
from intake.domain.verdict import Finding, Severity, Verdict

_SEVERITY_ORDER = {Severity.STOP: 0, Severity.ASK: 1, Severity.NOTE: 2}
# What a wrong part costs the desk (invented): a shaft is remade, the others are exchanged.
_COST = {"shaft": 470, "coupling": 75, "bearing": 75}
_NO_HISTORY = History()


def evaluate(
    sheet: Sheet,
    stock: Stock,
    history: History = _NO_HISTORY,
    limits: Limits = DEFAULT_LIMITS,
    *,
    with_next_question: bool = True,
) -> Verdict:
    """Judge a sheet. Pure: no clock, no database; the same facts give the same verdict.

    Numbers that are stopped at entry (wrong unit, out of range) are set aside, and nothing that
    would be computed from them is reported; so it stays where a set of limits makes such a check
    milder, for the number is no truer by that.
    """
    case = build_case(sheet, stock, history, limits)
    entry, asked = _checks_for(sheet.wants, sheet.answered)
    if limits.severities:
        entry, asked = (not_off(checks, limits.severities) for checks in (entry, asked))
    found = _settled(_findings(entry, case), sheet, history)
    stopped = frozenset(f.answers[0] for f in found if f.severity is Severity.STOP)
    if stopped:
        case = build_case(_without(sheet, stopped), stock, history, limits)
        asked = tuple(check for check in asked if stopped.isdisjoint(check.inputs))
        # What is missing or out of order is judged on the sheet as it came.
        rest = _findings(asked, replace(case, sheet=sheet))
    else:
        rest = _findings(asked, case)
    both = found + _settled(rest, sheet, history)
    if limits.severities:
        both = _graded(both, sheet, history, limits)
    findings = _dearest_first(both)
    asked_next = next_question(case, findings) if with_next_question else None
    return Verdict(case, findings, asked_next)


def fingerprint(sheet: Sheet, answers: Iterable[str]) -> str:
    """A short mark of what these answers say now; another answer gives another mark."""
    said: list[tuple[object, ...]] = []
    for slug in sorted(answers):
        reading = sheet.readings.get(slug)
        if reading:
            again = reading.again.length.nm if reading.again else None
            said.append((slug, reading.length.nm, reading.method, again))
        else:
            value = sheet.choices.get(slug) or sheet.parts.get(slug) or sheet.lists.get(slug)
            said.append((slug, str(value), sheet.states.get(slug, ""), None))
    return hashlib.sha256(repr(said).encode()).hexdigest()[:16]


@lru_cache(maxsize=4096)
def _checks_for(
    wants: tuple[str, ...], answered: frozenset[str]
) -> tuple[tuple[Check, ...], tuple[Check, ...]]:
    """The checks that can fire on what is wanted and answered: those of the entry, and the rest."""
    can = [check for check in CHECKS if check.may_fire(wants, answered)]
    return tuple(c for c in can if c.entry), tuple(c for c in can if not c.entry)


def _findings(checks: tuple[Check, ...], case: Case) -> list[Finding]:
    wants = case.sheet.wants
    found = (check.finding(said, wants) for check in checks for said in check.look(case))
    return [finding for finding in found if finding is not None]


def _without(sheet: Sheet, stopped: frozenset[str]) -> Sheet:
    kept = {slug: reading for slug, reading in sheet.readings.items() if slug not in stopped}
    return replace(sheet, readings=kept)


def _settled(found: list[Finding], sheet: Sheet, history: History) -> list[Finding]:
    """A finding that a person had confirmed, or released over, stays to be read and holds nothing.

    Settled before anything is set aside: a number that was confirmed is used.
    """
    if not history.settled:
        return found
    return [
        replace(finding, severity=Severity.NOTE, message=f"{finding.message} Settled by a person.")
        if _is_settled(finding, sheet, history)
        else finding
        for finding in found
    ]


def _is_settled(finding: Finding, sheet: Sheet, history: History) -> bool:
    return (finding.check, fingerprint(sheet, finding.answers)) in history.settled


def _graded(found: list[Finding], sheet: Sheet, history: History, limits: Limits) -> list[Finding]:
    """As severe as the set has it; what a person has settled stays settled."""
    return [
        finding
        if history.settled and _is_settled(finding, sheet, history)
        else regraded(finding, limits.severities)
        for finding in found
    ]


def _dearest_first(found: list[Finding]) -> tuple[Finding, ...]:
    return tuple(
        sorted(found, key=lambda f: (_SEVERITY_ORDER[f.severity], -max(_COST[p] for p in f.holds)))
    )
