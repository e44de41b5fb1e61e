"""Limits of the propeller end: taper, thread, key, nut. Common practice unless named."""

from __future__ import annotations

from dataclasses import dataclass

from catalog.domain.lengths import Length, inches
from catalog.domain.standards import value


def _rate(table: str, size: str, quantity: str) -> float:
    """A taper on diameter as the table writes it: "1:16 (...)" is one in sixteen."""
    return 1 / int(value(table, size, quantity).value.partition(":")[2].split()[0])


@dataclass(frozen=True)
class EndsLimits:
    """Limits of the propeller end: taper, thread, key, nut."""

    # Taper, fall of the diameter over the length. Inch shafts by SAE J755, metric by ISO 4566;
    # 1:12 and 1:20 are met on metric shafts (common practice).
    taper_rate_inch: float = _rate("j755_shaft_ends", "1 in", "taper_rate")
    taper_rate_metric: float = _rate("iso4566_iso8845_shaft_ends", "20 mm", "taper")
    taper_rates_met: tuple[float, ...] = (1 / 12, 1 / 20)
    # Two caliper readings, 0.003 each, and a length, 0.03, leave the rate 0.0016 on a 1 in end;
    # a shorter taper leaves more.
    taper_rate_u: float = 0.0016
    taper_diameters_u: Length = inches("0.003")
    taper_between_u: Length = inches("0.03")
    taper_near_u: float = 3.0
    small_end_near: Length = inches("0.020")
    taper_length_near: Length = inches("1/8")

    # Key, hub, nut.
    keyway_near: Length = inches("0.005")
    keyway_worn: Length = inches("0.030")
    hub_least_of_taper: float = 0.75
    hub_past_taper: Length = inches("1/2")
    thread_showing_pitches: float = 0.5
    thread_showing_most: Length = inches("3/4")
