"""Lengths: one exact type, and (below) the reader of what people write on a sheet.

A length is a whole number of nanometres: 1/64 in is 396 875 nm and 1 mm is 1 000 000 nm, so every
mark on every tape is exact, and adding or comparing never rounds.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction

NM_PER_INCH = 25_400_000
NM_PER_MM = 1_000_000
NM_PER_64TH = 396_875


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

    def as_json(self) -> dict[str, str]:
        """The form in which every length leaves by the API."""
        return {"mm": self.mm_text, "inch": self.inch_text}


def _mixed(sixty_fourths: int) -> str:
    whole, marks = divmod(sixty_fourths, 64)
    if not marks:
        return str(whole)
    part = Fraction(marks, 64)
    return f"{whole} {part}" if whole else str(part)


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
