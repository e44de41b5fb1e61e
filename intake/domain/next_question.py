"""The one question worth asking next: what a finding asks, else what lifts the fit most."""

from __future__ import annotations

from intake.domain.case import Case, improved
from intake.domain.methods import uncertainty_nm
from intake.domain.questions import QUESTIONS
from intake.domain.verdict import Finding, NextQuestion, Severity

# What a better reading would be, reading by reading: its slug and the better method.
_BETTER = {
    "strut": ("face_to_strut_aft", "rod"),
    "rule": ("hub_length", "rule"),
    "hub": ("hub_length", "caliper"),
    "tail": ("tail_to_thread", "rule"),
    "gap": ("gap_now", "drill_shank"),
    "old": ("old_length_face_to_thread", "tape"),
}


def next_question(case: Case, findings: tuple[Finding, ...]) -> NextQuestion | None:
    """The dearest finding's question; on a sheet nothing is asked of, the one with most gain.

    The gain is what the fit probability would rise by with that reading taken the better way.
    """
    gains = _gains(case)
    for finding in findings:
        if finding.severity is not Severity.NOTE:
            answer = finding.answers[0]
            # What is not answered yet is asked in its own words, not why it was left out.
            missing = finding.check == "missing-critical" and answer in QUESTIONS
            ask = QUESTIONS[answer].ask if missing else finding.question
            return NextQuestion(answer, ask, gains.get(answer, 0.0))
    if not gains:
        return None
    answer = max(gains, key=lambda slug: gains[slug])
    if gains[answer] < case.limits.worth_asking:
        return None
    return NextQuestion(answer, QUESTIONS[answer].ask, gains[answer])


def _gains(case: Case) -> dict[str, float]:
    """Gain in fit probability for each reading that could be taken better, by its slug."""
    if case.routes is None or case.routes.best is None:
        return {}
    moves, gains = case.routes.best.moves, {}
    for name, (slug, method) in _BETTER.items():
        now = moves.get(name, 0.0)
        then = uncertainty_nm(slug, method)
        reading = case.sheet.readings.get(slug)
        usual = reading.u_nm if reading else float("inf")
        if now and then < usual:
            share = then / usual if reading else then / abs(now)
            gains[slug] = improved(case, {name: now * share}) - case.probability
    return gains
