"""What a cut sheet says, as frozen values: the same facts always make the same bytes."""

from __future__ import annotations

from dataclasses import dataclass

from catalog.domain.lengths import NM_PER_INCH, Length
from intake.domain.shapes import Drawing

Rows = tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class StationRow:
    """One line of the station table. ``letter`` is its name in the drawing."""

    letter: str
    name: str
    inch: str
    fraction: str
    mm: str
    piece: str
    source: str


@dataclass(frozen=True, slots=True)
class Box:
    """One value to be written down as it was made, and what it must lie within."""

    label: str
    within: str


@dataclass(frozen=True, slots=True)
class CutFacts:
    """Everything on the page. ``not_known``: what no table gives; ``desk_word``: what the desk
    says of it, without which the sheet is not to be cut from."""

    shop: str
    number: str
    version: int
    sheet_number: int
    reference: str
    accepted: str
    boat: str
    job: str
    customer: str
    address: str
    bar: str
    piece: str
    length: str
    length_within: str
    overall: str
    drawing: Drawing
    stations: tuple[StationRow, ...]
    sums: str
    forward: Rows
    propeller: Rows
    finish: Rows
    work: tuple[str, ...]
    boxes: tuple[Box, ...]
    cautions: str
    not_known: tuple[str, ...]
    desk_word: str = ""
    length_label: str = "Coupling face to end of threads"

    @property
    def cuttable(self) -> bool:
        """False where something is not known and the desk has said nothing of it."""
        return not self.not_known or bool(self.desk_word)


def decimal_inches(length: Length) -> str:
    """Inches in decimals, exact to 1/64 in; ``≈`` in front where four places round.

    >>> from catalog.domain.lengths import inches, mm
    >>> [decimal_inches(inches(each)) for each in ("49", "47 9/16", "1/32")]
    ['49.0000', '47.5625', '0.03125']
    >>> decimal_inches(mm(1560))
    '≈61.4173'
    """
    sign, nm = ("-", -length.nm) if length.nm < 0 else ("", length.nm)
    millionths, rest = divmod(nm * 1_000_000, NM_PER_INCH)
    if rest:
        ten_thousandths = (nm * 20_000 + NM_PER_INCH) // (2 * NM_PER_INCH)
        return f"≈{sign}{ten_thousandths // 10_000}.{ten_thousandths % 10_000:04d}"
    whole, part = divmod(millionths, 1_000_000)
    digits = f"{part:06d}".rstrip("0").ljust(4, "0")
    return f"{sign}{whole}.{digits}"


def hundredths_mm(length: Length) -> str:
    """Millimetres with two places, half away from zero: ``1244.60``."""
    sign, nm = ("-", -length.nm) if length.nm < 0 else ("", length.nm)
    hundredths = (nm + 5_000) // 10_000
    return f"{sign}{hundredths // 100}.{hundredths % 100:02d}"


def both_exact(length: Length, system: str) -> str:
    """In both systems, the shaft's own first: ``49.0000 in (1244.60 mm)``."""
    inch, metric = f"{decimal_inches(length)} in", f"{hundredths_mm(length)} mm"
    return f"{inch} ({metric})" if system == "inch" else f"{metric} ({inch})"
