"""What a customer chose besides what was measured."""

from __future__ import annotations

from dataclasses import dataclass
from decimal import InvalidOperation

from catalog.domain.lengths import Length, mm

LONG = "long"


@dataclass(frozen=True, slots=True)
class Choice:
    """``alloy``: another one than the sheet says, "" for the sheet's; ``options``: keys of offers
    that were ticked."""

    alloy: str = ""
    options: frozenset[str] = frozenset()

    @property
    def left_long(self) -> Length:
        """What is left on at the coupling end for a yard to face; nothing where that was not
        chosen."""
        told = (key.partition(":") for key in sorted(self.options))
        found = (left_on(rest) for name, _, rest in told if name == LONG)
        return next((one for one in found if one is not None), Length(0))


def left_on(text: str) -> Length | None:
    """What is left on, from the millimetres of a key; None where they say no length.

    >>> left_on("25.4").inch_text, left_on("-1"), left_on("much")
    ('1', None, None)
    """
    try:
        extra = mm(text)
    except (ValueError, InvalidOperation):
        return None
    return extra if extra.nm > 0 else None


NO_CHOICE = Choice()
