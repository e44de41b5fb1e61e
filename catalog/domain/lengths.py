"""Lengths: one exact type. What people write is read into it by ``tape.py``.

A length is a whole number of nanometres: 1/64 in is 396 875 nm and 1 mm is 1 000 000 nm, so every
mark on every tape is exact, and adding or comparing never rounds.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from math import gcd

from catalog.domain import spoken

NM_PER_INCH = 25_400_000
NM_PER_MM = 1_000_000
NM_PER_64TH = 396_875
LONGEST_NM = 100 * 1000 * NM_PER_MM


@dataclass(frozen=True, slots=True, order=True)
class Length:
    """An exact length in whole nanometres (may be negative: a difference)."""

    nm: int

    def __add__(self, other: Length) -> Length:
        return Length(self.nm + other.nm)

    def __sub__(self, other: Length) -> Length:
        return Length(self.nm - other.nm)

    def __neg__(self) -> Length:
        return Length(-self.nm)

    def __abs__(self) -> Length:
        return Length(abs(self.nm))

    def __bool__(self) -> bool:
        return self.nm != 0

    @property
    def mm_text(self) -> str:
        """Millimetres with six places, exact: ``1489.075000``."""
        sign, whole = ("-", -self.nm) if self.nm < 0 else ("", self.nm)
        return f"{sign}{whole // NM_PER_MM}.{whole % NM_PER_MM:06d}"

    @property
    def inch_text(self) -> str:
        """Inches to the nearest 1/64, with ``≈`` in front when that rounded: ``58 5/8``."""
        sixty_fourths, rest = divmod(abs(self.nm), NM_PER_64TH)
        rounded = "≈" if rest else ""
        if rest * 2 >= NM_PER_64TH:
            sixty_fourths += 1
        sign = "-" if self.nm < 0 and sixty_fourths else ""
        return f"{rounded}{sign}{_mixed(sixty_fourths)}"

    @property
    def in_inches(self) -> float:
        """Inches as a float, for probability only."""
        return self.nm / NM_PER_INCH

    @property
    def in_mm(self) -> float:
        """Millimetres as a float, for probability and drawing only."""
        return self.nm / NM_PER_MM

    def show(self, system: str) -> str:
        """For people, in "inch" (or "in") or "mm": ``58 5/8 in``, ``1489.1 mm``."""
        return f"{self.inch_text} in" if system in _INCH_WORDS else f"{_tenths(self.nm)} mm"

    def both(self) -> str:
        """For people, in both systems: ``58 5/8 in · 1489.1 mm``."""
        return f"{self.show('in')} · {self.show('mm')}"

    def spoken(self, system: str) -> str:
        """As said on the phone: ``fifty-eight and five eighths inches``."""
        words = _inches_spoken if system in _INCH_WORDS else _mm_spoken
        return f"minus {words(-self.nm)}" if self.nm < 0 else words(self.nm)

    def as_json(self) -> dict[str, str]:
        """The form in which every length leaves by the API."""
        return {"mm": self.mm_text, "inch": self.inch_text}


def _mixed(sixty_fourths: int) -> str:
    whole, marks = divmod(sixty_fourths, 64)
    if not marks:
        return str(whole)
    part = Fraction(marks, 64)
    return f"{whole} {part}" if whole else str(part)


_INCH_WORDS = ("in", "inch")


def _tenths(nm: int) -> str:
    """Millimetres to a tenth, half away from zero, without a useless ``.0``."""
    if nm % NM_PER_MM == 0:
        return str(nm // NM_PER_MM)
    tenths = (abs(nm) * 10 + NM_PER_MM // 2) // NM_PER_MM
    return f"{'-' if nm < 0 and tenths else ''}{tenths // 10}.{tenths % 10}"


def _inches_spoken(nm: int) -> str:
    number, rest = divmod(nm, NM_PER_INCH)
    if rest % NM_PER_64TH == 0:
        return _marks_spoken(number, rest // NM_PER_64TH)
    if rest * 10_000 % NM_PER_INCH == 0:
        return f"{spoken.decimal(number, _digits(rest * 10_000 // NM_PER_INCH, 4))} inches"
    marks = (nm * 2 + NM_PER_64TH) // (NM_PER_64TH * 2)
    return f"about {_marks_spoken(*divmod(marks, 64))}"


def _marks_spoken(number: int, marks: int) -> str:
    common = gcd(marks, 64)
    return spoken.mixed(number, marks // common, 64 // common)


def _mm_spoken(nm: int) -> str:
    exact = nm % 1000 == 0
    number, rest = divmod(nm if exact else (nm + 50_000) // 100_000 * 100_000, NM_PER_MM)
    about = "" if exact else "about "
    if rest:
        return f"{about}{spoken.decimal(number, _digits(rest // 1000, 3))} millimetres"
    return f"{about}{spoken.whole(number)} {'millimetre' if number == 1 else 'millimetres'}"


def _digits(number: int, places: int) -> str:
    return f"{number:0{places}d}".rstrip("0")


def inches(text: str | int) -> Length:
    """An exact length from plain code such as ``"58 5/8"`` or ``"0.06"``; not for people's text."""
    total = sum((Fraction(word) for word in str(text).split()), Fraction())
    return _exact(total * NM_PER_INCH, text)


def mm(text: str | int) -> Length:
    """An exact length from plain code such as ``"25.4"``; not for people's text."""
    return _exact(Fraction(str(text)) * NM_PER_MM, text)


def _exact(nm: Fraction, text: object) -> Length:
    if nm.denominator != 1:
        raise ValueError(f"finer than a nanometre: {text!r}")
    return Length(int(nm))
