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
class AlloyFact:
    """One metal for this shaft. ``caution`` must stand beside its price; ``barred`` says why a
    customer cannot take it alone."""

    name: str
    metal: str
    total: str
    difference: str
    words: str
    crevice: str
    margin: str
    stock: str
    caution: str = ""
    barred: str = ""
    chosen: bool = False


@dataclass(frozen=True, slots=True)
class OptionFact:
    """What can be had besides. ``amount`` is "ask us" while there is no price: it has no box."""

    text: str
    why: str
    how: str
    amount: str
    ticked: bool = False
    tickable: bool = True


@dataclass(frozen=True, slots=True)
class PhotoFact:
    """A small JPEG that we made ourselves, and the answer it was taken for."""

    jpeg: bytes
    about: str = ""


@dataclass(frozen=True, slots=True)
class QuoteFacts:
    """Everything on the paper. Dates come in as words: the paper reads no clock.

    ``address`` is the status page's. ``photos``: at most four are printed, the rest is counted.
    ``terms`` are standing, ``money_terms`` go by the rates of the day: the deposit, whose duty.
    """

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
    boat_named: bool = True
    address: str = ""
    photos: tuple[PhotoFact, ...] = ()
    alloys: tuple[AlloyFact, ...] = ()
    alloy_notes: tuple[str, ...] = ()
    options: tuple[OptionFact, ...] = ()
    money_terms: tuple[str, ...] = ()
    delivery: tuple[str, ...] = ()
    deliver_to: str = ""
    needed: tuple[str, ...] = ()
    scale: str = ""
