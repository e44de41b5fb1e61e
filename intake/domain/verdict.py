"""What judging a sheet comes to: findings, the shaft, the parts, one verdict a part wanted."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from enum import StrEnum
from typing import Any, NamedTuple

from catalog.domain.lengths import Length
from intake.domain.case import Case
from intake.domain.stack import stack_up

RULES_VERSION = "2026.1"


class Severity(StrEnum):
    """What a finding makes happen: nothing leaves, a person asks, or it is printed."""

    STOP = "stop"
    ASK = "ask"
    NOTE = "note"


class Call(StrEnum):
    """The answer for one part, or for the whole sheet."""

    RELEASE = "release"
    ASK = "ask"
    STOP = "stop"


_WEIGHT = {Call.RELEASE: 0, Call.ASK: 1, Call.STOP: 2}
_CALL_OF = {Severity.STOP: Call.STOP, Severity.ASK: Call.ASK, Severity.NOTE: Call.RELEASE}


@dataclass(frozen=True, slots=True)
class Finding:
    """A check that fired, in words for the desk and an open question for the customer."""

    check: str
    severity: Severity
    holds: tuple[str, ...]
    message: str
    question: str
    answers: tuple[str, ...]
    source: str
    likely: tuple[Mapping[str, Any], ...] = ()

    def as_json(self) -> dict[str, Any]:
        """The finding as the API gives it."""
        return {
            "check": self.check,
            "severity": self.severity.value,
            "holds": list(self.holds),
            "message": self.message,
            "question": self.question,
            "answers": list(self.answers),
            "source": self.source,
            "likely": [dict(cause) for cause in self.likely],
        }


class RouteUsed(NamedTuple):
    """One way to the length: boat, tail, old_shaft or history; ``u_nm`` one standard deviation."""

    route: str
    length: Length
    u_nm: float
    used: bool
    how: str

    def as_json(self) -> dict[str, Any]:
        """The route as the API gives it."""
        return {
            "route": self.route,
            "length": self.length.as_json(),
            "standard_uncertainty_mm": mm_places(self.u_nm),
            "used": self.used,
            "how": self.how,
        }


@dataclass(frozen=True, slots=True)
class Shaft:
    """The shaft the sheet asks for: nominal size, lengths, the gap it will leave, how sure."""

    system: str
    nominal: Length
    exact: Length
    cut: Length
    overall: Length
    u_nm: float
    predicted_gap: Length
    fit_probability: float
    routes: tuple[RouteUsed, ...]

    def as_json(self) -> dict[str, Any]:
        """The shaft as the API gives it."""
        return {
            "nominal": {"system": self.system, **self.nominal.as_json()},
            "exact_length": self.exact.as_json(),
            "cut_length": self.cut.as_json(),
            "overall_length": self.overall.as_json(),
            "standard_uncertainty_mm": mm_places(self.u_nm),
            "predicted_gap": self.predicted_gap.as_json(),
            "fit_probability": round(self.fit_probability, 4),
            "routes": [route.as_json() for route in self.routes],
        }


@dataclass(frozen=True, slots=True)
class NextQuestion:
    """The one thing worth asking next; ``gain`` is in fit probability (0 to 1)."""

    answer: str
    ask: str
    gain: float

    def as_json(self) -> dict[str, Any]:
        """The question as the API gives it."""
        return {
            "answer": self.answer,
            "ask": self.ask,
            "fit_probability_gain": round(self.gain, 4),
        }


class PartMatch(NamedTuple):
    """A part of the catalogue for this sheet, and why it."""

    code: str
    kind: str
    quantity: int
    in_stock: bool
    why: str

    def as_json(self) -> dict[str, Any]:
        """The match as the API gives it."""
        return {
            "code": self.code,
            "kind": self.kind,
            "quantity": self.quantity,
            "in_stock": self.in_stock,
            "why": self.why,
        }


@dataclass(frozen=True, slots=True)
class Verdict:
    """Everything known about a sheet after judging it."""

    wants: tuple[str, ...]
    findings: tuple[Finding, ...]
    shaft: Shaft | None
    next_question: NextQuestion | None
    parts: tuple[PartMatch, ...]
    case: Case | None = field(default=None, repr=False, compare=False)
    rules_version: str = RULES_VERSION

    @property
    def verdicts(self) -> dict[str, Call]:
        """One call for each part wanted: the worst of the findings that hold it."""
        calls = dict.fromkeys(self.wants, Call.RELEASE)
        for finding in self.findings:
            call = _CALL_OF[finding.severity]
            for part in finding.holds:
                if part in calls and _WEIGHT[call] > _WEIGHT[calls[part]]:
                    calls[part] = call
        return calls

    @property
    def verdict(self) -> Call:
        """The worst call of all parts."""
        return max(self.verdicts.values(), key=_WEIGHT.__getitem__, default=Call.RELEASE)

    def as_json(self) -> dict[str, Any]:
        """The answer of the API."""
        calls = self.verdicts
        worst = max(calls.values(), key=_WEIGHT.__getitem__, default=Call.RELEASE)
        return {
            "verdict": worst.value,
            "verdicts": {part: call.value for part, call in calls.items()},
            "rules_version": self.rules_version,
            "shaft": self.shaft.as_json() if self.shaft else None,
            "findings": [finding.as_json() for finding in self.findings],
            "next_question": self.next_question.as_json() if self.next_question else None,
            "parts": [part.as_json() for part in self.parts],
        }

    def as_record(self) -> dict[str, Any]:
        """The answer with the stack-up for drawing and papers; what is stored."""
        stack = stack_up(self.case) if self.shaft and self.case else {}
        return {**self.as_json(), "stack": stack}


def mm_places(nm: float) -> str:
    """A standard uncertainty in millimetres with two places, as text."""
    return f"{nm / 1_000_000:.2f}"
