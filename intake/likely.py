"""Likely causes beside a finding: with shares for the desk, in kind words for the customer."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from intake.cause_words import Words, cause_words

SHOWN = 3  # findings, and causes of one
_TOO_SMALL = 0.05  # the second and third cause are named from this share up
# Nobody is helped by hearing that it may be something else, or the desk's own affair.
_NOT_FOR_CUSTOMERS = ("X", "K-", "S-", "T-", "C-")


@dataclass(frozen=True, slots=True)
class LikelyCause:
    """One cause in plain words and its share among all, for people: "39 %"."""

    code: str
    words: Words
    share: str


def likely_causes(finding: Mapping[str, Any]) -> list[LikelyCause]:
    """The first two or three causes of a finding, the likeliest first.

    >>> [c.share for c in likely_causes({"likely": [{"cause": "D-PIN", "probability": 0.512}]})]
    ['51 %']
    """
    told = [
        cause
        for number, cause in enumerate(finding.get("likely") or ())
        if number == 0 or cause["probability"] >= _TOO_SMALL
    ]
    return [
        LikelyCause(cause["cause"], cause_words(cause["cause"]), share(cause["probability"]))
        for cause in told[:SHOWN]
    ]


def share(probability: float) -> str:
    """A cause's share for people; none for the only one there is.

    >>> share(0.391), share(1.0)
    ('39 %', '')
    """
    return "" if probability == 1.0 else percent(probability)


def percent(chance: float) -> str:
    """A probability (0..1) as whole per cent; never 100 for what is not certain.

    >>> percent(0.9998), percent(0.412), percent(0.0)
    ('over 99 %', '41 %', 'under 1 %')
    """
    if chance > 0.99:
        return "over 99 %"
    return "under 1 %" if chance < 0.01 else f"{chance:.0%}".replace("%", " %")


@dataclass(frozen=True, slots=True)
class ShownFinding:
    """A finding with its causes: ``likely`` for the desk, ``often`` for the customer."""

    finding: Mapping[str, Any]

    @property
    def likely(self) -> list[LikelyCause]:
        """The first causes with their shares."""
        return likely_causes(self.finding)

    @property
    def often(self) -> list[Words]:
        """The first two causes that a customer can look for, without shares."""
        causes = (c for c in likely_causes(self.finding) if not _is_ours(c.code))
        return [cause.words for cause in causes][:2]


def _is_ours(code: str) -> bool:
    return code.startswith(_NOT_FOR_CUSTOMERS)


@dataclass(frozen=True, slots=True)
class Doubts:
    """Findings as pages show them: three, and the rest behind a fold."""

    findings: Sequence[Mapping[str, Any]]

    @property
    def first(self) -> list[ShownFinding]:
        """The dearest three."""
        return [ShownFinding(finding) for finding in self.findings[:SHOWN]]

    @property
    def rest(self) -> list[ShownFinding]:
        """What is folded away."""
        return [ShownFinding(finding) for finding in self.findings[SHOWN:]]
