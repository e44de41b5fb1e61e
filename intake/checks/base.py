"""What a check is: it looks at a case and yields what does not add up. It decides nothing."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass

from intake.domain.case import Case
from intake.domain.verdict import Finding, Severity

COMMON_PRACTICE = "common practice"
J755 = "SAE J755 geometry; limits common practice"

# The answers that make the diameter, the tail and the length; checks that judge what is computed
# from them are meaningless when one of them is in the wrong unit.
DIAMETER = frozenset({"dia_clean"})
GAP = frozenset({"gap_now"})
TAIL = frozenset({"hub_length", "tail_to_thread"}) | GAP | DIAMETER
STRUT = frozenset({"face_to_strut_aft"})
OLD = frozenset({"old_length_face_to_thread"})
LENGTHS = STRUT | OLD | TAIL


@dataclass(frozen=True, slots=True)
class Mismatch:
    """One thing that does not add up: which answers, in words, with what else the rule grades.

    ``severity``, ``question`` and ``holds`` override the check's own where the rule grades, asks
    otherwise, or touches fewer parts.
    """

    answers: tuple[str, ...]
    message: str
    severity: Severity | None = None
    question: str = ""
    holds: tuple[str, ...] = ()


Look = Callable[[Case], Iterator[Mismatch]]


@dataclass(frozen=True, slots=True)
class Check:
    """A rule with its name, usual severity, open question, source, and what it holds.

    ``inputs`` are the answers it reads: when one is known to be in the wrong unit the check is
    not asked. An ``entry`` check reads numbers as they came and runs first.
    """

    id: str
    severity: Severity
    ask: str
    source: str
    holds: tuple[str, ...]
    inputs: frozenset[str]
    entry: bool
    look: Look
    why: str

    def findings(self, case: Case) -> Iterator[Finding]:
        """Each mismatch as a finding on the parts that were asked for; none on other parts."""
        wants = case.sheet.wants
        for found in self.look(case):
            holds = tuple(part for part in found.holds or self.holds if part in wants)
            if holds:
                yield Finding(
                    check=self.id,
                    severity=found.severity or self.severity,
                    holds=holds,
                    message=found.message,
                    question=found.question or self.ask,
                    answers=found.answers,
                    source=self.source,
                )


def check(
    name: str,
    severity: Severity,
    *,
    ask: str,
    source: str = COMMON_PRACTICE,
    holds: tuple[str, ...] = ("shaft",),
    inputs: Iterable[str] = (),
    entry: bool = False,
) -> Callable[[Look], Check]:
    """Make a check of a function. Its docstring's first line is what managers read."""

    def made(look: Look) -> Check:
        why = (look.__doc__ or "").strip()
        return Check(name, severity, ask, source, holds, frozenset(inputs), entry, look, why)

    return made
