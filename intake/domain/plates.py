"""What engine plates, gearbox plates and thread gauges say: power, speed, ratio, thread."""

from __future__ import annotations

import re
from dataclasses import dataclass
from decimal import Decimal

from catalog.domain.characters import plain
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
_UNITS = {"hp": "hp", "bhp": "hp", "shp": "hp", "horsepower": "hp", "h.p": "hp"}
_UNITS |= {"kw": "kW", "kilowatt": "kW", "kilowatts": "kW", "ps": "PS", "metric horsepower": "PS"}
_NUMBER = r"[0-9]{1,4}(?:[.,][0-9]{1,2})?+"
_POWER = re.compile(rf"({_NUMBER}) ?({'|'.join(map(re.escape, _UNITS))})\.?")
_SPEED = re.compile(
    r"([0-9]{2,5}|[0-9]{1,2}[ ,.][0-9]{3})(?: ?(?:rpm|r\.p\.m\.?|r?/min|1/min|min-1))?"
)
_SIDE = r"[0-9]{1,2}(?:[.,][0-9]{1,3})?+"
_RATIO = re.compile(rf"({_SIDE})(?: ?(?::|to) ?({_SIDE}))?")
_SAID = {"one": "1", "two": "2", "three": "3", "four": "4"}
_SAID_RATIO = re.compile(rf"\b(?:{'|'.join(_SAID)})\b")
_UN = re.compile(
    r"""((?:[0-9][ -])? [0-9]{1,2}/(?:2|4|8|16|32|64) | [0-9]) [ ]?(?:in\.?|")?+ [ ]?[-x×][ ]?
    ([0-9]{1,2}) (?:[ ]?tpi)? (?:[ ]?un[cf]?(?:-[123][ab])?)?""",
    re.VERBOSE,
)
_METRIC = re.compile(r"m ?([0-9]{1,3})(?: ?[x×*] ?([0-9](?:[.,][0-9]{1,2})?))?+")
LONGEST = 40


def _tidy(text: str) -> str:
    """Plain characters, one space, small letters; what is too long for a plate is no plate."""
    return plain(text) if len(text) <= LONGEST else ""


def read_power(text: str) -> Power:
    """Power with its unit; refused without one, for hp and kW differ by a third.

    >>> read_power("75 kW").unit
    'kW'
    """
    found = _POWER.fullmatch(_tidy(text))
    if not found or not _number(found[1]):
        raise PlateError("Write the power with its unit, such as 310 hp, 75 kW or 100 PS.")
    return Power(_number(found[1]), _UNITS[found[2]])


def read_speed(text: str) -> int:
    """Engine speed in turns a minute; a comma in it can only part thousands.

    >>> read_speed("4600 rpm"), read_speed("3,600")
    (4600, 3600)
    """
    found = _SPEED.fullmatch(_tidy(text))
    turns = int(re.sub("[ ,.]", "", found[1])) if found else 0
    if not turns:
        raise PlateError("Write the engine speed as a whole number, such as 3600.")
    return turns


def read_ratio(text: str) -> Decimal:
    """Engine turns for one turn of the shaft; "1:2" is kept as one half.

    >>> read_ratio("2:1"), read_ratio("2.05 to 1")
    (Decimal('2'), Decimal('2.05'))
    """
    found = _RATIO.fullmatch(_SAID_RATIO.sub(lambda word: _SAID[word[0]], _tidy(text)))
    below = _number(found[2]) if found and found[2] else Decimal(1)
    if not found or not below or not _number(found[1]):
        raise PlateError("Write the ratio as on the gearbox plate, such as 2:1 or 2.05.")
    return _number(found[1]) / below


def read_thread(text: str) -> Thread:
    """A thread as a gauge names it.

    >>> read_thread("3/4 x 10").text
    '3/4-10'
    >>> read_thread("m20 x 1,5").text
    'M20x1.5'
    """
    tidy = _tidy(text)
    if found := _UN.fullmatch(tidy):
        thread = _inch_thread(found[1].replace(" ", "-"), found[2].lstrip("0"))
    elif found := _METRIC.fullmatch(tidy):
        thread = _metric_thread(found[1].lstrip("0"), found[2])
    else:
        thread = None
    if thread is None:
        raise PlateError("Write the thread as size and pitch, such as 3/4-10 or M20x1.5.")
    return thread


def _inch_thread(size: str, per_inch: str) -> Thread | None:
    """None where the fraction is no part of an inch, or there are no threads."""
    top, _slash, bottom = size.rpartition("-")[2].partition("/")
    if not per_inch or not 0 < int(top) < int(bottom or 10):
        return None
    return Thread(f"{size}-{per_inch}", "inch", inches(size.replace("-", " ")), per_inch)


def _metric_thread(size: str, written: str | None) -> Thread | None:
    """None for no size, or a pitch that is nothing or not finer than the thread is thick."""
    pitch = _number(written) if written else None
    if not size or (pitch is not None and not 0 < pitch < int(size)):
        return None
    fine = str(pitch.normalize()) if pitch else ""
    return Thread(f"M{size}x{fine}" if fine else f"M{size}", "mm", mm(size), fine)


def _number(text: str) -> Decimal:
    return Decimal(text.replace(",", "."))
