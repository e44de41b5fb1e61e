"""Who pays, by the terms, and where a mistake was born: suggested from a cause's family.

Invented policy: if our numbers were wrong we remake; if the boat was measured wrong we shorten at
cost and remake at material and freight. A cause is booked, never a person; a person decides.
"""

from __future__ import annotations

from dataclasses import dataclass

from intake.domain.causes import CAUSES, family
from quotes.domain.case_words import CUSTOMER, US

_OURS = {
    "K": "it was made at our desk",
    "S": "it was made in our shop",
    "C": "our catalogue was wrong",
    "T": "it came to harm on the way, which we answer for; claim it from the carrier",
}
_BORN = {
    **dict.fromkeys(("U", "R", "D", "G", "P", "E", "I"), "measuring"),
    **dict.fromkeys(("O", "B"), "boat"),
    "C": "catalogue",
    "K": "desk",
    "S": "shop",
    "T": "way",
    "F": "fitting",
    "X": "unknown",
}
_AT_COST = {
    "shorten": "we shorten at cost",
    "spacer": "the spacer goes at cost",
    "remake": "we remake at material and freight",
    "swap": "the part is swapped at cost",
}


@dataclass(frozen=True, slots=True)
class Suggestion:
    """Who pays by the terms, "" where the terms do not say; and why."""

    payer: str
    why: str


def suggest_payer(cause: str, kind: str = "") -> Suggestion:
    """What the terms say to a cause; the causes are those of the desk's list.

    >>> suggest_payer("K-TYPED").payer, suggest_payer("D-PIN", "remake").payer
    ('us', 'customer')
    """
    if cause not in CAUSES or cause == "X":
        return Suggestion("", "The terms do not say: the cause is not known. Decide with a reason.")
    letter = cause.partition("-")[0]
    if letter in _OURS:
        return Suggestion(US, f"Our numbers or our work: {_OURS[letter]}. We put it right free.")
    what = _AT_COST.get(kind, "we shorten at cost, or remake at material and freight")
    return Suggestion(CUSTOMER, f"{family(cause)}, not our numbers: {what}.")


def born_in(cause: str) -> str:
    """Where such a mistake is made, as a first guess; "" without a cause.

    >>> born_in("S-LENGTH"), born_in("D-PIN")
    ('shop', 'measuring')
    """
    return _BORN.get(cause.partition("-")[0], "")
