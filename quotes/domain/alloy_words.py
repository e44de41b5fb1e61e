"""What is said of each shaft metal: relative words, common practice, no source.

Strengths, stiffness and density are in ``catalog.domain.materials``; here is what no number says.
"""

from __future__ import annotations

from dataclasses import dataclass

CREVICE = (
    "Crevice corrosion: this metal pits where salt water stands still, under packing, in the "
    "bearing and in a log. Not for a boat that lies idle in salt water."
)


@dataclass(frozen=True, slots=True)
class AlloyWords:
    """``crevice``: how it stands still sea water; ``say``: to the customer; ``caution``: always
    shown with it."""

    crevice: str
    say: str
    caution: str = ""


_PLAIN = AlloyWords(
    "poor if idle",
    "Cheap; fine in fresh water. Not for boats that sit in salt.",
    CREVICE,
)
ALLOYS = {
    "S31600": _PLAIN,
    "1.4401": _PLAIN,
    "S20910": AlloyWords("good", "What we send where nothing else is asked for."),
    "S17400": AlloyWords(
        "fair", "Strong, in larger sizes too; wants movement and protection against corrosion."
    ),
    "1.4462": AlloyWords("good", "What we send in metric sizes where nothing else is asked for."),
    "N05500": AlloyWords(
        "very good in moving water",
        "For work and passenger craft. Not together with aluminium.",
        "Nickel-copper eats aluminium: not on a hull, strut or drive of aluminium.",
    ),
    "C46400": AlloyWords("fair; loses zinc", "Traditional, for low power."),
}
