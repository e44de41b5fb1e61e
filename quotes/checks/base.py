"""What a check of the shop is: it looks at a chain and yields what does not add up."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from catalog.domain.lengths import Length, inches
from intake.checks.base import Mismatch
from intake.domain.verdict import Severity
from quotes.domain.stations import Chain


@dataclass(frozen=True, slots=True)
class ShopLimits:
    """Limits of the shop's checks. ``chain_off``: how far a chain may be off (arithmetic: nothing
    that adds up is off at all; this much is lost where somebody rounds to 0.01 in)."""

    chain_off: Length = inches("0.005")


Look = Callable[[Chain, ShopLimits], Iterator[Mismatch]]


@dataclass(frozen=True, slots=True)
class ShopCheck:
    """A rule with its name, severity, open question and source; ``why`` is what managers read."""

    id: str
    severity: Severity
    ask: str
    source: str
    look: Look
    why: str

    def found(self, chain: Chain, limits: ShopLimits | None = None) -> tuple[Mismatch, ...]:
        """Everything that does not add up; empty where all does."""
        return tuple(self.look(chain, limits or ShopLimits()))


def check(name: str, severity: Severity, *, ask: str, source: str) -> Callable[[Look], ShopCheck]:
    """Make a check of a function, as in the intake's own checks."""

    def made(look: Look) -> ShopCheck:
        return ShopCheck(name, severity, ask, source, look, (look.__doc__ or "").strip())

    return made
