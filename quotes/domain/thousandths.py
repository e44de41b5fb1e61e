"""Small lengths as a caliper or an indicator shows them, in both systems."""

from __future__ import annotations

from catalog.domain.lengths import Length
from quotes.domain.cut_facts import hundredths_mm


def three(length: Length) -> str:
    """Inches to a thousandth: ``48.969``.

    >>> from catalog.domain.lengths import inches
    >>> three(inches("48 31/32")), three(-inches("1/32"))
    ('48.969', '-0.031')
    """
    sign, nm = ("-", -length.nm) if length.nm < 0 else ("", length.nm)
    thousandths = (nm + 12_700) // 25_400
    return f"{sign}{thousandths // 1000}.{thousandths % 1000:03d}"


def off(length: Length) -> str:
    """How far something is off, without its sign: ``0.047 in (1.19 mm)``."""
    size = abs(length)
    return f"{three(size)} in ({hundredths_mm(size)} mm)"


def small(length: Length) -> str:
    """A run-out to a ten-thousandth: ``0.0035 in (0.089 mm)``; trailing noughts beyond three go.

    >>> from catalog.domain.lengths import inches
    >>> small(inches("0.0035")), small(inches("0.002"))
    ('0.0035 in (0.089 mm)', '0.002 in (0.051 mm)')
    """
    tenths = (length.nm + 1_270) // 2_540
    inch = f"{tenths // 10_000}.{tenths % 10_000:04d}"
    inch = inch.removesuffix("0")
    return f"{inch} in ({(length.nm + 500) // 1_000 / 1000:.3f} mm)"
