"""The choice a quote was priced with, as it is kept with the quote."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from quotes.domain.choice import NO_CHOICE, Choice


def choice_as_json(choice: Choice) -> dict[str, Any]:
    """A choice for ``Quote.inputs["choice"]``: the same choice is always the same JSON."""
    return {"alloy": choice.alloy, "options": sorted(choice.options)}


def kept_choice(inputs: Mapping[str, Any]) -> Choice:
    """The choice in what a quote was priced from; none where the quote is older than choices.

    >>> kept_choice({"choice": {"alloy": "S31600", "options": ["rush"]}})
    Choice(alloy='S31600', options=frozenset({'rush'}))
    >>> kept_choice({})
    Choice(alloy='', options=frozenset())
    """
    told = inputs.get("choice")
    if not isinstance(told, Mapping):
        return NO_CHOICE
    return Choice(str(told.get("alloy") or ""), frozenset(told.get("options") or ()))
