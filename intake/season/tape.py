"""How people measure and what they write: the noise of each way, and the marks of its tool.

The uncertainties are this model's own copy (common practice, no source), in inches, one standard
deviation, the rounding to the tool's marks included.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from fractions import Fraction
from random import Random
from typing import Any

MM = 1 / 25.4


@dataclass(frozen=True, slots=True)
class Way:
    """One way to measure one thing: its standard uncertainty, and the marks it is read to."""

    u: float
    inch_mark: float
    mm_mark: float

    def mark(self, system: str) -> float:
        """The smallest mark in inches."""
        return self.mm_mark * MM if system == "mm" else self.inch_mark


WAYS: dict[tuple[str, str], Way] = {
    ("x", "rod"): Way(0.05, 1 / 16, 1),
    ("x", "tape_helper"): Way(0.06, 1 / 16, 1),
    ("x", "tape_one_hand"): Way(0.08, 1 / 8, 1),
    ("x", "pieces"): Way(0.15, 1 / 8, 5),
    ("old", "tape"): Way(0.045, 1 / 16, 1),
    ("old", "tape_one_hand"): Way(0.08, 1 / 8, 1),
    ("gap", "drill_shank"): Way(0.025, 1 / 64, 0.5),
    ("gap", "rule"): Way(0.03, 1 / 32, 0.5),
    ("gap", "tape"): Way(0.045, 1 / 16, 1),
    ("gap", "eye"): Way(0.12, 1 / 8, 1),
    ("tail", "tape_short"): Way(0.03, 1 / 16, 1),
    ("tail", "rule"): Way(0.02, 1 / 32, 0.5),
    ("hub", "caliper"): Way(0.01, 0.001, 0.1),
    ("hub", "rule"): Way(0.02, 1 / 32, 0.5),
    ("hub", "tape_short"): Way(0.03, 1 / 16, 1),
    ("diameter", "caliper"): Way(0.002, 0.001, 0.05),
    ("diameter", "paper_strip"): Way(0.006, 0.001, 0.1),
    ("diameter", "wrench_32"): Way(0.018, 1 / 32, 0.5),
    ("diameter", "wrench_16"): Way(0.030, 1 / 16, 1),
    ("part", "caliper"): Way(0.01, 0.001, 0.1),
    ("part", "tape_short"): Way(0.03, 1 / 16, 1),
}


@dataclass(frozen=True, slots=True)
class Reading:
    """A number as written; ``value`` in inches is what it stands for once it is read.

    ``pen`` is by how much a slip of the pen has changed it.
    """

    text: str
    value: float
    method: str
    start_mark: str = "0"
    pen: float = 0.0

    def as_answer(self) -> dict[str, Any]:
        """The answer of the API's body."""
        answer = {"text": self.text, "method": self.method}
        return answer if self.start_mark == "0" else {**answer, "start_mark": self.start_mark}


def look(rng: Random, what: str, method: str, true: float, system: str) -> float:
    """What the tool shows: the truth with its noise, to the nearest mark. Inches."""
    way = WAYS[what, method]
    mark = way.mark(system)
    rest = math.sqrt(max(way.u**2 - mark**2 / 12, 0.0))
    return max(round((true + rng.gauss(0.0, rest)) / mark), 0) * mark


def written(value: float, system: str) -> str:
    """A number as people write it: fractions of an inch or decimals, or millimetres."""
    if system == "mm":
        return f"{value / MM:.2f}".rstrip("0").rstrip(".")
    sixty_fourths = value * 64
    if abs(sixty_fourths - round(sixty_fourths)) > 1e-6:
        return f"{value:.3f}".rstrip("0").rstrip(".")
    return mixed(Fraction(round(sixty_fourths), 64))


def mixed(value: Fraction) -> str:
    """58 5/8, 58 or 5/8."""
    whole, part = divmod(value, 1)
    if not part:
        return str(whole)
    return f"{whole} {part}" if whole else str(part)


def taken(rng: Random, what: str, method: str, true: float, system: str) -> Reading:
    """An honest reading, written down."""
    value = look(rng, what, method, true, system)
    return Reading(written(value, system), value, method)


# -- What a slip of the pen makes of a number ---------------------------------------------------


def eighths_as_decimal(reading: Reading, system: str, rng: Random) -> Reading:
    """46 5/8 written 46.5: k eighths as decimal .k."""
    whole, eighths = divmod(round(reading.value * 8), 8)
    return _instead(reading, f"{whole}.{eighths}" if eighths else str(whole))


def feet_run_together(reading: Reading, system: str, rng: Random) -> Reading:
    """4 ft 1 1/8 in written 41 1/8; 3 ft 10 in written 310."""
    whole, part = divmod(Fraction(round(reading.value * 64), 64), 1)
    feet, over = divmod(int(whole), 12)
    return _instead(reading, mixed(Fraction(f"{feet}{over}") + part))


def digits_swapped(reading: Reading, system: str, rng: Random) -> Reading:
    """46 5/8 written 64 5/8: two neighbouring digits of the whole number that differ."""
    text, *rest = reading.text.split(" ", 1)
    digits, point, decimals = text.partition(".")
    places = [i for i in range(len(digits) - 1) if digits[i] != digits[i + 1]]
    if not places:
        return reading
    at = rng.choice(places)
    swapped = digits[:at] + digits[at + 1] + digits[at] + digits[at + 2 :]
    number = swapped.lstrip("0") or "0"
    return _instead(reading, " ".join([number + point + decimals, *rest]), system)


def other_unit(reading: Reading, system: str, rng: Random) -> Reading:
    """Millimetres on an inch sheet, inches on a millimetre sheet; no unit beside the number."""
    if system == "mm":
        return _instead(reading, f"{reading.value:.1f}", system)
    return _instead(reading, f"{reading.value / MM:.0f}")


def centimetres(reading: Reading, system: str, rng: Random) -> Reading:
    """Centimetres without a unit beside the number."""
    return _instead(reading, f"{reading.value * 2.54:.1f}", system)


def _instead(reading: Reading, text: str, system: str = "inch") -> Reading:
    """The same reading with another text, and with what that text will be read as."""
    number = float(sum((Fraction(word) for word in text.split()), Fraction()))
    value = number * MM if system == "mm" else number
    return Reading(text, value, reading.method, reading.start_mark, value - reading.value)
