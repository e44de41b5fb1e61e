"""What engine plates, gearbox plates and thread gauges say: power, speed, ratio, thread."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal

from catalog.domain.lengths import Length, inches, mm


class PlateError(ValueError):
    """The text is none of these; the message is one sentence for the person who wrote it."""


@dataclass(frozen=True, slots=True)
class Power:
    """Engine power as written on the plate; ``unit`` is hp, kW or PS."""

    value: Decimal
    unit: str

    @property
    def horsepower(self) -> float:
        """Mechanical horsepower (745.69987 W), for torque only."""
        return float(self.value) * _HP_PER[self.unit]


@dataclass(frozen=True, slots=True)
class Thread:
    """A screw thread: major diameter, and threads an inch (UN) or pitch in mm (M)."""

    text: str
    system: str
    major: Length
    pitch: str


# 1 hp = 550 ft lbf/s; 1 PS = 75 kgf m/s. Both exact by definition; checked against Pint.
_HP_PER = {"hp": 1.0, "kW": 1000 / 745.6998715822702, "PS": 735.49875 / 745.6998715822702}
_POWER = re.compile(r"(\d{1,4}(?:[.,]\d{1,2})?)\s*(hp|bhp|shp|kw|ps)\.?", re.IGNORECASE)
_UNITS = {"hp": "hp", "bhp": "hp", "shp": "hp", "kw": "kW", "ps": "PS"}
_SPEED = re.compile(r"(\d{2,5})(?:\s*(?:rpm|r/min|1/min|min-1))?", re.IGNORECASE)
_RATIO = re.compile(r"(\d{1,2}(?:[.,]\d{1,3})?)(?:\s*:\s*(\d{1,2}(?:[.,]\d{1,3})?))?")
_UN = re.compile(r"((?:\d[ -])?\d{1,2}/\d{1,2}|\d)\s*(?:in\.?|\")?\s*-\s*(\d{1,2})(?:\s*UN[CF]?)?")
_METRIC = re.compile(r"M\s?(\d{1,3})(?:\s*[x×*]\s*(\d(?:[.,]\d{1,2})?))?", re.IGNORECASE)


def read_power(text: str) -> Power:
    """Power with its unit; refused without one, for hp and kW differ by a third.

    >>> read_power("75 kW").unit
    'kW'
    """
    found = _POWER.fullmatch(text.strip())
    if not found:
        raise PlateError("Write the power with its unit, such as 310 hp, 75 kW or 100 PS.")
    return Power(_number(found[1]), _UNITS[found[2].lower()])


def read_speed(text: str) -> int:
    """Engine speed in turns a minute.

    >>> read_speed("4600 rpm")
    4600
    """
    found = _SPEED.fullmatch(text.strip())
    if not found:
        raise PlateError("Write the engine speed as a whole number, such as 3600.")
    return int(found[1])


def read_ratio(text: str) -> Decimal:
    """Engine turns for one turn of the shaft.

    >>> read_ratio("2:1")
    Decimal('2')
    """
    found = _RATIO.fullmatch(text.strip())
    below = _number(found[2]) if found and found[2] else Decimal(1)
    if not found or not below or not _number(found[1]):
        raise PlateError("Write the ratio as on the gearbox plate, such as 2:1 or 2.05.")
    return _number(found[1]) / below


def read_thread(text: str) -> Thread:
    """A thread as a gauge names it.

    >>> read_thread("3/4-10").text
    '3/4-10'
    >>> read_thread("m20 x 1,5").text
    'M20x1.5'
    """
    plain = " ".join(text.split())
    if found := _UN.fullmatch(plain):
        size = found[1].replace(" ", "-")
        return Thread(f"{size}-{found[2]}", "inch", inches(size.replace("-", " ")), found[2])
    if found := _METRIC.fullmatch(plain):
        pitch = str(_number(found[2]).normalize()) if found[2] else ""
        name = f"M{found[1]}x{pitch}" if pitch else f"M{found[1]}"
        return Thread(name, "mm", mm(found[1]), pitch)
    raise PlateError("Write the thread as size and pitch, such as 3/4-10 or M20x1.5.")


def _number(text: str) -> Decimal:
    return Decimal(text.replace(",", "."))
