"""What a quote's paper says, as frozen values: the same facts always make the same bytes."""

from __future__ import annotations

from dataclasses import dataclass

from intake.domain.shapes import Drawing


@dataclass(frozen=True, slots=True)
class Measured:
    """One of the customer's own numbers. ``mark`` is measured, computed or assumed."""

    label: str
    typed: str
    both: str
    how: str
    mark: str


@dataclass(frozen=True, slots=True)
class LineFact:
    """One line of the price as it is printed; ``amount`` is "to come" while it is missing."""

    text: str
    how: str
    quantity: str
    unit_price: str
    amount: str


@dataclass(frozen=True, slots=True)
class ShaftFacts:
    """The shaft in words: what is made, the gap it leaves, what rounding did."""

    length: str
    rows: tuple[tuple[str, str], ...]
    gap: tuple[str, ...]
    rounding: str


@dataclass(frozen=True, slots=True)
class QuoteFacts:
    """Everything on the two pages. Dates come in as words: the paper reads no clock."""

    shop: str
    number: str
    version: int
    issued: str
    valid_until: str
    currency: str
    customer: str
    role: str
    boat: str
    job: str
    reference: str
    measured_by: str
    drawing: Drawing | None
    gap_drawing: Drawing | None
    shaft: ShaftFacts | None
    notes: tuple[str, ...]
    readings: tuple[Measured, ...]
    lines: tuple[LineFact, ...]
    sums: tuple[tuple[str, str], ...]
    total: str
    lead: tuple[str, ...]
    offers: str
    terms: tuple[str, ...]
    confirm: tuple[str, ...]
    cautions: tuple[str, ...]
    limits: str
    draft: bool = False
