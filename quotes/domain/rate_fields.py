"""The desk's rates one by one: what each is called, its unit, and between what it may lie."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal

from quotes.domain.rates import Rates

# How a rate is written and read.
MONEY, PERCENT, NUMBER, COUNT, CLASSES, TAXES, YES_NO = (
    "money", "percent", "number", "count", "classes", "taxes", "yes_no",
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class RateField:
    """One rate. ``least`` and ``most`` are in its unit; a percentage's are per cent."""

    name: str
    kind: str
    group: str
    words: str
    unit: str = ""
    least: Decimal = Decimal(0)
    most: Decimal = Decimal(100)

    @property
    def is_long(self) -> bool:
        """Whether it is written on several lines."""
        return self.kind in (CLASSES, TAXES)


def _field(
    group: str,
    name: str,
    kind: str,
    words: str,
    unit: str = "",
    least: str = "0",
    most: str = "100",
) -> RateField:
    return RateField(name, kind, group, words, unit, Decimal(least), Decimal(most))


_PRICE, _TERMS, _TAX, _FREIGHT, _TIME = (
    "The price", "What is offered", "Tax", "Freight", "Time",
)  # fmt: skip

_ALL = (
    _field(_PRICE, "minimum_order", MONEY, "Minimum order", most="100000"),
    _field(_PRICE, "rush_rate", PERCENT, "Rush, of the labour", "%", most="300"),
    _field(_PRICE, "drop_rate", PERCENT, "What is left of a bar, at this part of its price", "%"),
    _field(_PRICE, "drop_under_in", NUMBER, "Charged when what is left is under", "in", most="144"),
    _field(_PRICE, "straighten_free_in", NUMBER, "Straightening counts from", "in", most="240"),
    _field(_PRICE, "saw_in", NUMBER, "Ends and saw, inch bars", "in", most="6"),
    _field(_PRICE, "charge_step_in", NUMBER, "Inch bars go in steps of", "in", "0.0625", "12"),
    _field(_PRICE, "saw_mm", NUMBER, "Ends and saw, metric bars", "mm", most="150"),
    _field(_PRICE, "charge_step_mm", NUMBER, "Metric bars go in steps of", "mm", "1", "500"),
    _field(_TERMS, "validity_days", COUNT, "An offer is valid for", "days", "1", "365"),
    _field(_TERMS, "discount_limit", PERCENT, "Trade discount, at most", "%", most="60"),
    _field(_TERMS, "deposit_over", MONEY, "A deposit is due over", most="1000000"),
    _field(_TERMS, "deposit_part", PERCENT, "Deposit, of the total", "%"),
    _field(_TERMS, "saw_waits_for_deposit", YES_NO, "The saw waits for the deposit"),
    _field(_TAX, "tax_rate", PERCENT, "Tax on goods and work, where no place is named", "%"),
    _field(_TAX, "tax_rules", TAXES, "Tax by place"),
    _field(_FREIGHT, "tube_extra_in", NUMBER, "Tube longer than the shaft by", "in", most="24"),
    _field(_FREIGHT, "tube_wider_in", NUMBER, "Tube wider than the shaft by", "in", most="24"),
    _field(_FREIGHT, "freight_classes", CLASSES, "By length of tube, inch shafts", "in"),
    _field(_FREIGHT, "freight_weights", CLASSES, "By weight, inch shafts", "lb"),
    _field(_FREIGHT, "freight_girths", CLASSES, "By length and girth, inch shafts", "in"),
    _field(_FREIGHT, "freight_classes_mm", CLASSES, "By length of tube, metric shafts", "mm"),
    _field(_FREIGHT, "freight_weights_kg", CLASSES, "By weight, metric shafts", "kg"),
    _field(_FREIGHT, "freight_girths_mm", CLASSES, "By length and girth, metric shafts", "mm"),
    _field(_TIME, "lead_days.blank", COUNT, "From a blank in stock", "working days", "0", "250"),
    _field(_TIME, "lead_days.bar", COUNT, "From a bar", "working days", "0", "250"),
    _field(_TIME, "lead_days.coupling", COUNT, "Coupling machined", "working days", "0", "250"),
    _field(_TIME, "lead_days.special_alloy", COUNT, "Special alloy", "working days", "0", "250"),
    _field(_TIME, "shafts_per_day", COUNT, "Shafts the shop makes", "a day", "1", "500"),
)  # fmt: skip
FIELDS: Mapping[str, RateField] = {field.name: field for field in _ALL}


def value_of(rates: Rates, name: str) -> object:
    """The value of one rate; ``lead_days.bar`` is the one of that name among the lead days."""
    whole, _, inner = name.partition(".")
    value = getattr(rates, whole)
    return value[inner] if inner else value
