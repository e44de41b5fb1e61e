"""The one question worth asking next: what a finding asks, else what lifts the fit most."""

from __future__ import annotations

from intake.domain.case import Case
from intake.domain.gains import gains
from intake.domain.questions import QUESTIONS
from intake.domain.verdict import Finding, NextQuestion, Severity

# What these ask is how to be surer of the length: the question that does it best is asked.
OF_THE_LENGTH = frozenset(
    {
        "route-boat-vs-old",
        "single-route",
        "fit-probability",
        "pin-end-included",
        "burned-inch",
        "ten-start",
        "tape-case",
        "slope-measure",
        "pass-through-datum",
    }
)
# Nothing else settles these, whatever it would be worth.
DECISIVE = "old-shaft-only"

_NO_GAIN = 0.0001


def next_question(case: Case, findings: tuple[Finding, ...]) -> NextQuestion | None:
    """The dearest finding's question; where that doubts the length, the one of most value.

    On a sheet that nothing is asked of, the one of most value, if it is worth asking at all. The
    gain is the expected fit probability after asking, less the present one.
    """
    held = [finding for finding in findings if finding.severity is not Severity.NOTE]
    holding = next((f for f in held if f.check == DECISIVE), held[0] if held else None)
    if holding is None:
        # No answer can bring more than what is missing to certainty.
        if 1.0 - case.fit < case.limits.worth_asking:
            return None
        best = _most_valuable(case)
        return best if best and best.gain >= case.limits.worth_asking else None
    if holding.check in OF_THE_LENGTH:
        best = _most_valuable(case)
        if best and best.gain > _NO_GAIN:
            return best
    answer = holding.answers[0]
    # What is not answered yet is asked in its own words, not why it was left out.
    missing = holding.check == "missing-critical" and answer in QUESTIONS
    ask = QUESTIONS[answer].ask if missing else holding.question
    return NextQuestion(answer, ask, max(gain_of(case, answer), 0.0))


def gain_of(case: Case, answer: str) -> float:
    """What the fit probability is expected to rise by, if this answer were given or bettered."""
    return max((gain for one, gain in gains(case) if one.answer == answer), default=0.0)


def _most_valuable(case: Case) -> NextQuestion | None:
    """The inquiry with the greatest gain for its trouble."""
    ranked = max(gains(case), key=lambda pair: pair[1] / pair[0].minutes, default=None)
    if ranked is None:
        return None
    inquiry, gain = ranked
    return NextQuestion(inquiry.answer, inquiry.ask or QUESTIONS[inquiry.answer].ask, gain)
