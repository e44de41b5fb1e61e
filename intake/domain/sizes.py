"""The nominal shaft sizes of both systems, as the desk stocks them, and how often it meets each."""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass

from catalog.domain.lengths import Length, inches, mm

# How often the desk meets each size (common practice, no source).
_INCH = {
    "3/4": 6,
    "7/8": 10,
    "1": 30,
    "1 1/8": 26,
    "1 1/4": 12,
    "1 3/8": 6,
    "1 1/2": 5,
    "1 3/4": 3,
    "2": 2,
}
_METRIC = {
    "20": 4,
    "22": 4,
    "25": 30,
    "28": 6,
    "30": 26,
    "32": 6,
    "35": 12,
    "38": 2,
    "40": 10,
    "45": 5,
    "50": 3,
}


@dataclass(frozen=True, slots=True)
class Size:
    """A nominal shaft size. ``system`` is "inch" or "mm"."""

    system: str
    diameter: Length

    @property
    def name(self) -> str:
        """As the trade says it: ``1 1/8 in``, ``30 mm``."""
        if self.system == "inch":
            return f"{self.diameter.inch_text} in"
        return f"{self.diameter.mm_text.rstrip('0').rstrip('.')} mm"


INCH_SIZES: tuple[Size, ...] = tuple(Size("inch", inches(name)) for name in _INCH)
METRIC_SIZES: tuple[Size, ...] = tuple(Size("mm", mm(name)) for name in _METRIC)
SIZES: tuple[Size, ...] = tuple(sorted(INCH_SIZES + METRIC_SIZES, key=lambda s: s.diameter.nm))
COMMON: dict[Size, float] = {
    **dict(zip(INCH_SIZES, map(float, _INCH.values()), strict=True)),
    **dict(zip(METRIC_SIZES, map(float, _METRIC.values()), strict=True)),
}


def _in_order(sizes: tuple[Size, ...]) -> tuple[tuple[Size, ...], list[int]]:
    ordered = tuple(sorted(sizes, key=lambda size: size.diameter.nm))
    return ordered, [size.diameter.nm for size in ordered]


_IN_ORDER: dict[str | None, tuple[tuple[Size, ...], list[int]]] = {
    "inch": _in_order(INCH_SIZES),
    "mm": _in_order(METRIC_SIZES),
    None: _in_order(SIZES),
}


def nearest_size(length: Length, system: str | None = None) -> Size:
    """The stocked size nearest to a length, of one system or of either."""
    sizes, places = _IN_ORDER[system]
    after = bisect_left(places, length.nm)
    if after == 0 or after == len(sizes):
        return sizes[min(after, len(sizes) - 1)]
    nearer_before = length.nm - places[after - 1] <= places[after] - length.nm
    return sizes[after - nearer_before]


def steps_apart(one: Size, other: Size) -> int | None:
    """How many stock steps lie between two sizes of one system; None across systems."""
    if one.system != other.system:
        return None
    sizes = INCH_SIZES if one.system == "inch" else METRIC_SIZES
    return abs(sizes.index(one) - sizes.index(other))
