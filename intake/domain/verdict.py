"""What judging a sheet comes to: findings, the shaft, the parts, one verdict a part wanted."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from typing import Any

from intake.domain.case import Case
from intake.domain.parts import PartMatch, match_parts
from intake.domain.shaft import Shaft, shaft_of
from intake.domain.stack import stack_up


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


@dataclass(frozen=True, slots=True)
class Verdict:
    """Everything known about a sheet after judging it."""

    case: Case
    findings: tuple[Finding, ...]
    next_question: NextQuestion | None

    @property
    def wants(self) -> tuple[str, ...]:
        """The parts that were asked for."""
        return self.case.sheet.wants

    @property
    def rules_version(self) -> str:
        """The name of the limits it was judged by."""
        return self.case.limits.name

    @property
    def shaft(self) -> Shaft | None:
        """The shaft, or None where none is wanted or can be computed. Made anew each time."""
        return shaft_of(self.case)

    @property
    def parts(self) -> tuple[PartMatch, ...]:
        """What of the catalogue this sheet asks for. Looked up anew each time."""
        return match_parts(self.case)

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
        calls, shaft = self.verdicts, self.shaft
        worst = max(calls.values(), key=_WEIGHT.__getitem__, default=Call.RELEASE)
        return {
            "verdict": worst.value,
            "verdicts": {part: call.value for part, call in calls.items()},
            "rules_version": self.rules_version,
            "shaft": shaft.as_json() if shaft else None,
            "findings": [finding.as_json() for finding in self.findings],
            "next_question": self.next_question.as_json() if self.next_question else None,
            "parts": [part.as_json() for part in self.parts],
        }

    def as_record(self) -> dict[str, Any]:
        """The answer with the stack-up for drawing and papers; what is stored."""
        answer = self.as_json()
        return {**answer, "stack": stack_up(self.case) if answer["shaft"] else {}}
