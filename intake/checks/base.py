"""What a check is: it looks at a case and yields what does not add up. It decides nothing."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any

from intake.domain.case import Case
from intake.domain.causes import CAUSES
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

    ``severity``, ``question``, ``holds`` and ``likely`` (causes with their probabilities) override
    the check's own where the rule grades, asks otherwise, touches fewer parts, or knows better.
    """

    answers: tuple[str, ...]
    message: str
    severity: Severity | None = None
    question: str = ""
    holds: tuple[str, ...] = ()
    likely: tuple[tuple[str, float], ...] = ()


Look = Callable[[Case], Iterator[Mismatch]]


@dataclass(frozen=True, slots=True)
class Check:
    """A rule with its name, usual severity, open question, source, and what it holds.

    ``inputs`` are the answers it reads: when one is known to be in the wrong unit the check is
    not asked. ``needs`` are the answers it is silent without ("a|b": either will do). An ``entry``
    check reads numbers as they came and runs first. ``likely`` are its usual causes by code.
    """

    id: str
    severity: Severity
    ask: str
    source: str
    holds: tuple[str, ...]
    inputs: frozenset[str]
    needs: tuple[frozenset[str], ...]
    entry: bool
    likely: tuple[tuple[str, float], ...]
    look: Look
    why: str

    def may_fire(self, wants: tuple[str, ...], answered: frozenset[str]) -> bool:
        """True where it holds a part that is wanted and has the answers it needs."""
        held = not set(wants).isdisjoint(self.holds)
        return held and not any(need.isdisjoint(answered) for need in self.needs)

    def finding(self, found: Mismatch, wants: tuple[str, ...]) -> Finding | None:
        """A mismatch as a finding on the parts that were asked for; None on other parts."""
        holds = tuple(part for part in found.holds or self.holds if part in wants)
        if not holds:
            return None
        return Finding(
            check=self.id,
            severity=found.severity or self.severity,
            holds=holds,
            message=found.message,
            question=found.question or self.ask,
            answers=found.answers,
            source=self.source,
            likely=_named(found.likely or self.likely),
        )


_SHOWN_CAUSES = 3


def _named(causes: tuple[tuple[str, float], ...]) -> tuple[Mapping[str, Any], ...]:
    """The first causes, as the API names them."""
    return tuple(
        {"cause": code, "label": CAUSES[code], "probability": round(share, 4)}
        for code, share in causes[:_SHOWN_CAUSES]
    )


_ON_NO_LIST = 0.1


def _shares(weights: Mapping[str, float]) -> tuple[tuple[str, float], ...]:
    """Weights as shares, the likeliest first; a tenth is left for what is on no list."""
    total = sum(weights.values()) / (1 - _ON_NO_LIST)
    ranked = sorted(weights.items(), key=lambda item: -item[1])
    return tuple((code, weight / total) for code, weight in ranked)


def check(
    name: str,
    severity: Severity,
    *,
    ask: str,
    source: str = COMMON_PRACTICE,
    holds: tuple[str, ...] = ("shaft",),
    inputs: Iterable[str] = (),
    needs: Iterable[str] = (),
    entry: bool = False,
    likely: Mapping[str, float] | None = None,
) -> Callable[[Look], Check]:
    """Make a check of a function. Its docstring's first line is what managers read.

    ``likely`` weighs the usual causes against each other (common practice, no source).
    """
    required = tuple(frozenset(need.split("|")) for need in needs)

    def made(look: Look) -> Check:
        return Check(
            id=name,
            severity=severity,
            ask=ask,
            source=source,
            holds=holds,
            inputs=frozenset(inputs).union(*required),
            needs=required,
            entry=entry,
            likely=_shares(likely or {}),
            look=look,
            why=(look.__doc__ or "").strip(),
        )

    return made
