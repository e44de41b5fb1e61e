"""One value of a published table, as a frozen fact."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal
from enum import StrEnum

from catalog.domain.lengths import Length, inches, mm

TITLES: Mapping[str, str] = {
    "j755_shaft_ends": "Propeller shaft ends and hubs, SAE J755",
    "j755_general": "SAE J755: scope and general rules",
    "iso4566_iso8845_shaft_ends": "Metric propeller shaft ends, ISO 4566 and ISO 8845",
    "keys_b17_1_vs_j755": "Keys: ANSI B17.1 beside SAE J755",
    "ansi_b17_1_key_vs_shaft": "Square keys by shaft size, ANSI B17.1",
    "iso773_din6885_keys": "Metric keys, ISO 773 and DIN 6885",
    "unc_threads_b18_2_2_nuts": "UNC threads and hexagon nuts, ASME B1.1 and B18.2.2",
    "ansi_b4_1_interference": "Interference fits, ANSI B4.1",
    "couplings_flanges": "Couplings and flanges",
    "sleeve_bearings_inch": "Inch sleeve bearings",
    "bearing_rules": "Bearings: rules and clearances",
    "mil_dtl_17901c": "Bearing components, MIL-DTL-17901C",
    "shaft_materials": "Shaft materials",
    "safety_factors": "Safety factors by service",
    "inch_metric_traps": "Inch and metric sizes that are taken for each other",
    "alignment_runout": "Alignment and run-out",
    "trade_facts": "Stock sizes and parcels",
}


class Confidence(StrEnum):
    """Where a value comes from; the words are what people are shown."""

    SEEN = "seen"
    ARITHMETIC = "arithmetic"
    MEMORY = "memory"
    GAP = "gap"

    @property
    def words(self) -> str:
        return _WORDS[self]


_WORDS = {
    Confidence.SEEN: "read in a published document",
    Confidence.ARITHMETIC: "worked out here",
    Confidence.MEMORY: "from memory: verify before metal is cut",
    Confidence.GAP: "not known: we ask, we do not invent",
}
WORST_FIRST = (Confidence.GAP, Confidence.MEMORY, Confidence.ARITHMETIC, Confidence.SEEN)


def worst(values: Iterable[StandardValue]) -> Confidence:
    """How sure we may be of something made of these values: no surer than of the worst."""
    return min((v.confidence for v in values), key=WORST_FIRST.index)


@dataclass(frozen=True, slots=True)
class StandardValue:
    """What one table says of one quantity. ``unit`` is ``-`` for words and plain numbers."""

    table: str
    subject: str
    quantity: str
    value: str
    unit: str
    standard: str
    source: str
    confidence: Confidence
    note: str

    @classmethod
    def from_row(cls, table: str, row: Mapping[str, str | None]) -> StandardValue:
        """One CSV row; a word that is not a confidence counts as a gap and is then refused."""
        cell = {key: (text or "").strip() for key, text in row.items() if isinstance(key, str)}
        known = cell.get("confidence") in set(Confidence)
        return cls(
            table=table,
            subject=cell.get("subject", ""),
            quantity=cell.get("quantity", ""),
            value=cell.get("value", ""),
            unit=cell.get("unit", ""),
            standard=cell.get("standard", ""),
            source=cell.get("source", ""),
            confidence=Confidence(cell["confidence"]) if known else Confidence.GAP,
            note=cell.get("note", ""),
        )

    @property
    def length(self) -> Length:
        """The value as an exact length; raises ValueError where it is not one (or is words)."""
        if self.unit == "in":
            return inches(self.value.replace("-", " "))
        if self.unit == "mm":
            return mm(self.value)
        raise ValueError(f"{self.subject} {self.quantity} is in {self.unit}, not a length")

    @property
    def number(self) -> Decimal:
        """The value as an exact number; raises ValueError where it is words."""
        try:
            return Decimal(self.value)
        except ArithmeticError as error:
            raise ValueError(f"not a number: {self.value!r}") from error
