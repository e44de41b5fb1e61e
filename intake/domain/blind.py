"""A number read twice, the second time without seeing the first: how far apart the two are."""

from __future__ import annotations

from catalog.domain.lengths import NM_PER_MM, Length


def apart(first: Length, second: Length, unit: str) -> str:
    """The second against the first, exact, in the tape's unit ("in", "ft" or "mm").

    >>> apart(Length(1_120_775_000), Length(1_146_175_000), "in")
    '1 in more'
    >>> apart(Length(19_050_000), Length(19_000_000), "mm"), apart(Length(5), Length(5), "mm")
    ('0.05 mm less', 'the same number')
    """
    off = Length(abs(second.nm - first.nm))
    if not off:
        return "the same number"
    more = "more" if second.nm > first.nm else "less"
    inches = off.inch_text
    if unit in ("in", "ft") and "≈" not in inches:
        return f"{inches} in {more}"
    return f"{_exact_mm(off)} mm {more}"


def _exact_mm(length: Length) -> str:
    """Millimetres with as many places as they have."""
    whole, rest = divmod(length.nm, NM_PER_MM)
    return f"{whole}.{rest:06d}".rstrip("0").rstrip(".")
