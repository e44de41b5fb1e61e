"""What a bar is made of and how thick it is: only bars of one metal do for each other."""

from __future__ import annotations

from dataclasses import dataclass

from catalog.domain.lengths import Length
from quotes.domain.lines import show
from quotes.domain.order import Shaft, alloy_words, same_metal


@dataclass(frozen=True, slots=True, order=True)
class Metal:
    """System, nominal diameter and alloy of a bar. One metal may be listed under two names."""

    system: str
    diameter: Length
    alloy: str

    @classmethod
    def of(cls, shaft: Shaft) -> Metal:
        """What this shaft is made of."""
        return cls(shaft.system, shaft.diameter, shaft.alloy)

    @property
    def alloys(self) -> frozenset[str]:
        """Every name its bars may be listed under."""
        return same_metal(self.alloy)

    @property
    def key(self) -> str:
        """The same text for bars that do for each other."""
        return f"{self.system} {self.diameter.nm} {min(self.alloys)}"

    @property
    def words(self) -> str:
        """For people: ``1 in UNS S20910``."""
        return f"{show(self.diameter, self.system)} {alloy_words(self.alloy)}"
