"""What of an earlier choice still holds on the sheet as it is now, and what is left out of it."""

from __future__ import annotations

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass
from typing import Any

from quotes.domain.alloys import own_alloy
from quotes.domain.choice import NO_CHOICE, Choice
from quotes.domain.margin import Judged
from quotes.domain.order import Shaft, alloy_words


@dataclass(frozen=True, slots=True)
class StillChosen:
    """The choice that stands, and a sentence for each thing that was dropped from it."""

    choice: Choice = NO_CHOICE
    dropped: tuple[str, ...] = ()


def still_chosen(
    choice: Choice,
    offered: Collection[str],
    alloy: str,
    words: Callable[[str], str],
) -> StillChosen:
    """``offered``: keys that can be ticked now; ``alloy``: what is left of the chosen metal;
    ``words``: what a key means.
    """
    kept = choice.options & frozenset(offered)
    gone = [words(key) for key in sorted(choice.options - kept)]
    if choice.alloy and not alloy:
        gone.insert(0, alloy_words(choice.alloy))
    return StillChosen(Choice(alloy, kept), tuple(map(left_out, gone)))


def left_out(words: str) -> str:
    """Said to the customer and to staff: nothing that was chosen goes silently."""
    return f"Chosen earlier, and left out now since it no longer fits this sheet: {words}."


def standing_alloy(
    alloy: str,
    shaft: Shaft | None,
    made_on: Mapping[str, Any],
    body: Mapping[str, Any],
    shelf: Collection[str],
    judged: Judged,
    *,
    by_staff: bool,
) -> str:
    """The chosen metal where it can still be had; "" where the sheet's own holds.

    ``made_on``: the body it was chosen on. A sheet that names another metal since is the newer
    word. ``shelf``: metals with a bar of this size now.
    """
    if not alloy or shaft is None or made_on.get("alloy") != body.get("alloy"):
        return ""
    if alloy not in shelf or alloy == own_alloy(shaft, body):
        return ""
    held = judged.stops or (bool(judged.barred) and not by_staff)
    return "" if held else alloy
