"""What a check of the shop is: it looks at facts and yields what does not add up.

Which facts is the check's own matter: a chain of stations, an inspection, a bar that is to be
cut. Its limits are a frozen dataclass of its own, kept beside the rule, so that one file says
what is looked at, how far it may be off and on whose word.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Generic, TypeVar

from intake.checks.base import Mismatch
from intake.domain.verdict import Severity

Facts = TypeVar("Facts")
Limits = TypeVar("Limits")


@dataclass(frozen=True, slots=True)
class ShopCheck(Generic[Facts, Limits]):
    """A rule with its name, severity, open question and source; ``why`` is what managers read.

    ``limits`` are the limits it is held to where nobody gives others.
    """

    id: str
    severity: Severity
    ask: str
    source: str
    limits: Limits
    look: Callable[[Facts, Limits], Iterator[Mismatch]]
    why: str

    def found(self, facts: Facts, limits: Limits | None = None) -> tuple[Mismatch, ...]:
        """Everything that does not add up; empty where all does."""
        return tuple(self.look(facts, self.limits if limits is None else limits))


def check(
    name: str, severity: Severity, limits: Limits, *, ask: str, source: str
) -> Callable[[Callable[[Facts, Limits], Iterator[Mismatch]]], ShopCheck[Facts, Limits]]:
    """Make a check of a function, as in the intake's own checks."""

    def made(look: Callable[[Facts, Limits], Iterator[Mismatch]]) -> ShopCheck[Facts, Limits]:
        return ShopCheck(name, severity, ask, source, limits, look, (look.__doc__ or "").strip())

    return made
