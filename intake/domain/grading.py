"""How a set of limits makes a check more or less severe than it is by itself."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import replace

from intake.checks import BY_ID
from intake.checks.base import Check
from intake.domain.verdict import Finding, Severity

_STEPS = (Severity.NOTE, Severity.ASK, Severity.STOP)
_OFF = "off"


def not_off(checks: Iterable[Check], severities: Mapping[str, str]) -> tuple[Check, ...]:
    """The checks that are asked at all."""
    return tuple(check for check in checks if severities.get(check.id) != _OFF)


def regraded(finding: Finding, severities: Mapping[str, str]) -> Finding:
    """The finding as severe as the set has it.

    What is set is the check's usual severity. A check that grades by how much is wrong keeps its
    steps: they move up or down together, never beyond a stop, and never below a note (only "off"
    silences). So a check set from ask to note still asks where it would have stopped.
    """
    wanted = severities.get(finding.check)
    if wanted is None:
        return finding
    return replace(finding, severity=step(finding.severity, BY_ID[finding.check].severity, wanted))


def step(severity: str, own: str, wanted: str) -> Severity:
    """Where a severity goes when the check's own is moved to the wanted one.

    >>> step("stop", "ask", "note"), step("note", "ask", "note")
    (<Severity.ASK: 'ask'>, <Severity.NOTE: 'note'>)
    """
    moved = _STEPS.index(Severity(wanted)) - _STEPS.index(Severity(own))
    return _STEPS[min(max(_STEPS.index(Severity(severity)) + moved, 0), len(_STEPS) - 1)]
