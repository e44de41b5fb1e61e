"""What a customer chose besides what was measured."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Choice:
    """``alloy``: another one than the sheet says, "" for the sheet's; ``options``: keys of offers
    that were ticked."""

    alloy: str = ""
    options: frozenset[str] = frozenset()


NO_CHOICE = Choice()
