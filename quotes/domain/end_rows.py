"""What the tables say of one propeller end, value by value, each with how sure it is.

Sources: SAE J755 (MAY2015) Table 1 for inch sizes; of metric ends the few rows that were seen of
ISO 4566. What no row gives stays away here: the cut sheet then says so.
"""

from __future__ import annotations

from dataclasses import dataclass

from catalog.domain.lengths import Length
from catalog.domain.standards import Confidence, StandardValue, value

VERIFY = "verify before metal is cut"
_J755, _ISO = "j755_shaft_ends", "iso4566_iso8845_shaft_ends"


@dataclass(frozen=True, slots=True)
class EndRows:
    """The rows of one size. ``subject`` is the size as the table writes it: ``1-1/8 in``."""

    table: str
    subject: str

    def row(self, quantity: str) -> StandardValue | None:
        """One value with its source, or None where the table has none."""
        try:
            return value(self.table, self.subject, quantity)
        except KeyError:
            return None

    def length(self, quantity: str) -> Length | None:
        """One value as an exact length, or None where it is not there or is no single length."""
        row = self.row(quantity)
        try:
            return row.length if row else None
        except ValueError:
            return None

    def unsure(self, *quantities: str) -> str:
        """The words to print beside something made of these values; "" where all were seen."""
        rows = [self.row(quantity) for quantity in quantities]
        seen = all(row is None or row.confidence == Confidence.SEEN for row in rows)
        return "" if seen else VERIFY


def end_rows(system: str, diameter: Length) -> EndRows:
    """The rows for a nominal diameter; ``system`` is "inch" or "mm".

    >>> from catalog.domain.lengths import inches
    >>> end_rows("inch", inches("1 1/8")).length("taper_length_C").inch_text
    '3 1/8'
    """
    if system == "inch":
        return EndRows(_J755, f"{diameter.inch_text.replace(' ', '-')} in")
    return EndRows(_ISO, f"{diameter.mm_text.rstrip('0').rstrip('.')} mm")
