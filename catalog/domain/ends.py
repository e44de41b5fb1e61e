"""The propeller end of a shaft, by the table: SAE J755, nine inch sizes.

Metric ends are not here: no published row gives them whole, so they are asked, never invented.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from catalog.domain.lengths import Length, inches
from catalog.domain.standards import StandardValue, subjects, value, worst

_TABLE = "j755_shaft_ends"
# The hub reaches past the small end, so that the nut bears on it (1/64 in on diameter x 16).
HUB_OVERHANG = inches("1/4")


@dataclass(frozen=True, slots=True)
class ShaftEnd:
    """One standard end. ``nut_standoff`` is n: nut face (hub back) to the end of the threads;
    ``nose`` is the cotter-pin end past the threads. ``confidence`` is that of the least sure
    value used; "memory" means: verify before metal is cut.
    """

    diameter: Length
    taper_length: Length
    small_end: Length
    small_end_min: Length
    small_end_max: Length
    keyway_width: Length
    thread: str
    thread_length: Length
    nose: Length
    nut_standoff: Length
    confidence: str
    source: str


def shaft_end(system: str, diameter: Length) -> ShaftEnd | None:
    """The standard end for a nominal diameter, or None where no table gives one.

    ``system`` is "inch" or "mm". Source: SAE J755 (MAY2015), Table 1.

    >>> shaft_end("inch", inches("1 1/8")).nut_standoff.inch_text
    '1 3/16'
    """
    return _inch_ends().get(diameter.nm) if system == "inch" else None


@cache
def _inch_ends() -> dict[int, ShaftEnd]:
    ends = [_end(size) for size in subjects(_TABLE)]
    return {end.diameter.nm: end for end in ends}


def _end(size: str) -> ShaftEnd:
    used: list[StandardValue] = []

    def take(quantity: str) -> StandardValue:
        used.append(value(_TABLE, size, quantity))
        return used[-1]

    low, high = take("small_end_dia_min").length, take("small_end_dia_max").length
    threads = take("thread_length_G").length
    return ShaftEnd(
        diameter=inches(size.removesuffix(" in").replace("-", " ")),
        taper_length=take("taper_length_C").length,
        small_end=Length((low.nm + high.nm) // 2),
        small_end_min=low,
        small_end_max=high,
        keyway_width=take("keyway_width_max").length,
        thread=take("thread_nominal").value.removesuffix(" UNC"),
        thread_length=threads,
        nose=take("extension_beyond_taper_H").length - threads,
        nut_standoff=threads - HUB_OVERHANG,
        confidence=str(worst(used)),
        source=used[0].standard,
    )
