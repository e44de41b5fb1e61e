"""Shafts to be sawn, pieces to saw them from, and what a plan of cuts is judged by."""

from __future__ import annotations

from dataclasses import dataclass, field

from catalog.domain.lengths import Length, inches

FACING = inches("1/16")  # at each end (common practice, no source)
KERF = inches("1/8")  # the saw (common practice, no source)
SCRAP_UNDER = inches(24)  # a shorter drop is scrap (common practice, no source)
SPARE_FROM, SPARE_TO = inches(1), inches(6)  # a remnant that fits well has this much over
STEPS = 6_000
ZERO = Length(0)


def bar_needed(overall: Length) -> Length:
    """The bar a shaft is sawn from: tip to tip, faced at both ends, and the saw cut.

    Common practice, no source: L - r + pin + 1/16 + 1/16 + 1/8, of which the first three are the
    length overall.

    >>> bar_needed(inches(49)).inch_text
    '49 1/4'
    """
    return overall + FACING + FACING + KERF


@dataclass(frozen=True, slots=True)
class Demand:
    """A shaft to be sawn. ``length`` counts facing and kerf; ``metal`` names size and alloy.

    Demands with the same ``pair`` want one heat; ``heat``: the one the other shaft has already.
    """

    job: str
    length: Length
    metal: str = ""
    pair: str = ""
    heat: str = ""


@dataclass(frozen=True, slots=True)
class Rod:
    """A piece in the rack. ``length``: what is free of it; ``whole``: a bar nobody has cut into.

    ``heat`` "" is not known: then only what comes from the same piece is surely of one heat.
    """

    piece: str
    length: Length
    heat: str = ""
    whole: bool = False
    metal: str = ""


@dataclass(frozen=True, slots=True, order=True)
class Score:
    """What a plan costs, dearest first; the smaller the better. ``worth`` is negative."""

    unserved: int = 0
    apart: int = 0
    opened: int = 0
    scrap: int = 0
    worth: int = 0

    def __add__(self, other: Score) -> Score:
        return Score(
            self.unserved + other.unserved,
            self.apart + other.apart,
            self.opened + other.opened,
            self.scrap + other.scrap,
            self.worth + other.worth,
        )


@dataclass(frozen=True, slots=True)
class Plan:
    """``cuts`` gives each job's piece, ``left`` what each piece that is cut has over.

    ``proven``: nothing better is possible; else it is good, but not everything was tried.
    """

    cuts: dict[str, str] = field(default_factory=dict)
    left: dict[str, Length] = field(default_factory=dict)
    unserved: tuple[str, ...] = ()
    apart: tuple[str, ...] = ()
    score: Score = Score()
    proven: bool = True

    @property
    def scrap(self) -> Length:
        """All drops that are too short to be kept, less what remnants have over by the rule."""
        return Length(self.score.scrap)

    @property
    def words(self) -> str:
        return "best possible" if self.proven else "good, not proven best"


def scrap_of(rod: Rod, left: int) -> int:
    """What is lost of a piece that was cut: nothing of a long drop, nothing of a good fit."""
    if left >= SCRAP_UNDER.nm:
        return 0
    fits_well = not rod.whole and SPARE_FROM.nm <= left <= SPARE_TO.nm
    return 0 if fits_well else left
