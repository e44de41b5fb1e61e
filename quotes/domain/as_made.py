"""One shaft as it was made, and the gap it will make in its boat. Lengths are exact.

The gap moves one for one with the length: gap = g* + L made - L best, which is the accepted
sheet's predicted gap plus what the shaft came out longer. Where the hub seats moves it too: a
small end off by d on diameter moves the hub 16 d on a taper of 1:16, 10 d on one of 1:10
(geometry; SAE J755, ISO 4566). A trial seat shows all of that, and then counts alone.
"""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from catalog.domain.lengths import NM_PER_MM, Length, mm
from intake.domain.explain import Explanation, honest_fit
from intake.domain.fit import Band
from intake.domain.gap_range import Chance
from intake.domain.methods import uncertainty_nm
from quotes.domain.end_rows import end_rows

# How the finished length was taken, and its standard uncertainty by the intake's own table of
# ways to measure (common practice, no source).
TOOLS = {
    "tape_short": "steel tape on the bench",
    "rule": "steel rule",
    "caliper": "long caliper",
}
TAPER_RATE = {"inch": 16, "mm": 10}
# A micrometer on the small end, common practice, no source: 0.0005 in.
_MICROMETER_NM = 12_700
_NOTHING = Length(0)
PLACES = {"coupling": "coupling end", "bearing": "bearing", "taper": "taper"}


@dataclass(frozen=True, slots=True)
class AsMade:
    """What was measured on one finished shaft; None: not measured.

    ``length``: coupling face to the end of the threads. ``runout``: total indicator reading by
    place. ``seat``: back of the hub to the end of the threads, with the propeller or gauge home.
    """

    length: Length
    tool: str = "tape_short"
    overall: Length | None = None
    small_end: Length | None = None
    runout: Mapping[str, Length] | None = None
    face: Length | None = None
    contact: int | None = None
    seat: Length | None = None


@dataclass(frozen=True, slots=True)
class Accepted:
    """What the accepted sheet promises of the shaft. ``small_end`` as least and most of the
    table; ``standoff``: back of the hub to the end of the threads, as calculated.
    ``left_long``: what of both lengths a yard faces off; the gap is the one it makes after that."""

    system: str
    diameter: Length
    length: Length
    overall: Length
    gap: Length | None
    goal: Length | None
    band: Band | None
    fit: float | None
    u_nm: float
    chances: tuple[Chance, ...]
    small_end: tuple[Length, Length] | None
    standoff: Length | None
    has_coupling: bool = True
    left_long: Length = _NOTHING

    @property
    def middle(self) -> Length | None:
        """The small end's diameter in the middle of its limits."""
        low, high = self.small_end or (None, None)
        return Length((low.nm + high.nm) // 2) if low and high else None


def accepted(
    stack: Mapping[str, Any], *, has_coupling: bool = True, left_long: Length | None = None
) -> Accepted:
    """The promise as it was stored with the sheet, as long as it is to leave us.

    Raises KeyError where no length was stored.
    """
    left = left_long or _NOTHING
    system, diameter = str(stack.get("system") or "inch"), mm(stack["nominal"]["mm"])
    length = mm(stack["length"])
    ends = [_length(stack, key) for key in ("gap_min", "gap_goal", "gap_max")]
    rows = end_rows(system, diameter)
    low, high = rows.length("small_end_dia_min"), rows.length("small_end_dia_max")
    u = float(stack.get("u_mm") or 0)
    chances = tuple(Chance(*row) for row in stack.get("explained") or ())
    return Accepted(
        system=system,
        diameter=diameter,
        length=length + left,
        overall=(_length(stack, "overall") or length) + left,
        gap=_length(stack, "predicted_gap"),
        goal=ends[1],
        band=Band(ends[0], ends[1], ends[2]) if ends[0] and ends[1] and ends[2] else None,
        fit=stack.get("fit_probability"),
        u_nm=u * NM_PER_MM,
        chances=chances or ((Chance(1.0, 0.0, u),) if u > 0 else ()),
        small_end=(low, high) if low and high else None,
        standoff=_length(stack, "nut_standoff"),
        has_coupling=has_coupling,
        left_long=left,
    )


def _length(stack: Mapping[str, Any], key: str) -> Length | None:
    value = stack.get(key)
    return mm(value) if value not in (None, "") else None


@dataclass(frozen=True, slots=True)
class Made:
    """An accepted shaft beside the same shaft as it was made: what checks look at."""

    accepted: Accepted
    made: AsMade

    @property
    def longer(self) -> Length:
        """How much longer than accepted it came out; negative: shorter."""
        return self.made.length - self.accepted.length

    @property
    def still_on(self) -> Length:
        """What a yard has to face off a shaft that was left long; negative: it is too short."""
        return self.accepted.left_long + self.longer

    @property
    def seat_moves(self) -> Length:
        """How much further aft the hub seats than calculated, by trial seat or small end."""
        if self.made.seat is not None and self.accepted.standoff is not None:
            return self.accepted.standoff - self.made.seat
        if self.made.small_end is not None and self.accepted.middle is not None:
            off = self.made.small_end - self.accepted.middle
            return Length(off.nm * TAPER_RATE[self.accepted.system])
        return Length(0)

    @property
    def gap(self) -> Length | None:
        """The gap it will make: the sheet's own, longer by the length and by the seat."""
        gap = self.accepted.gap
        return gap + self.longer + self.seat_moves if gap is not None else None

    @property
    def shop_u_nm(self) -> float:
        """What our own measuring of the finished shaft adds, in nanometres."""
        taken = uncertainty_nm("old_length_face_to_thread", self.made.tool)
        by_small = self.made.seat is None and self.made.small_end is not None
        seat = TAPER_RATE[self.accepted.system] * _MICROMETER_NM if by_small else 0
        return math.hypot(taken, seat)

    @property
    def u(self) -> Length:
        """Standard uncertainty of the gap: of the best length on the sheet, and of our own."""
        return Length(round(math.hypot(self.accepted.u_nm, self.shop_u_nm)))

    @property
    def fit(self) -> float | None:
        """The chance that the gap is fair, slips included, as the sheet's own is reckoned."""
        return self.fit_at(self.gap)

    def fit_at(self, gap: Length | None) -> float | None:
        """The same for another gap: the sheet's explanations, each as unsure as our measuring
        makes it besides. None where no gap was predicted."""
        band = self.accepted.band
        if gap is None or band is None or not self.accepted.chances:
            return None
        found = [
            Explanation(
                "", (), one.probability, one.mean_mm * NM_PER_MM,
                math.hypot(one.sd_mm * NM_PER_MM, self.shop_u_nm),
            )
            for one in self.accepted.chances
        ]  # fmt: skip
        return honest_fit(found, gap.nm, band)

    @property
    def is_overall(self) -> bool:
        """Whether what was typed as the length is the overall length: taken to the nose's tip."""
        nose = self.accepted.overall - self.accepted.length
        off = abs(self.made.length - self.accepted.overall)
        return nose.nm > 0 and off.nm * 4 <= nose.nm
