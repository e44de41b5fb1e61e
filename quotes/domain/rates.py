"""The desk's own rules of price: what is not a row of the catalogue."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from decimal import Decimal
from typing import Any

from quotes.domain.tax import GOODS, WORK, TaxRule

FreightClasses = tuple[tuple[Decimal | None, Decimal], ...]


def _table(*rows: tuple[int | None, int]) -> FreightClasses:
    return tuple((None if top is None else Decimal(top), Decimal(cost)) for top, cost in rows)


# Prices invented. Lengths: common practice. Weights: invented, but for the most a parcel may weigh,
# 150 lb (parcel carrier limits). Length and girth: 165 (the same), 108 and 130 from memory.
_LENGTHS_IN = _table((48, 22), (72, 41), (96, 68), (108, 110), (None, 190))
_WEIGHTS_LB = _table((30, 22), (50, 41), (70, 68), (150, 110), (None, 190))
_GIRTHS_IN = _table((84, 22), (108, 68), (130, 110), (165, 150), (None, 190))
_LENGTHS_MM = _table((1220, 22), (1830, 41), (2440, 68), (2740, 110), (None, 190))
_WEIGHTS_KG = _table((13, 22), (23, 41), (31, 68), (68, 110), (None, 190))
_GIRTHS_MM = _table((2140, 22), (2740, 68), (3300, 110), (4190, 150), (None, 190))
_LEAD = {"blank": 3, "bar": 8, "coupling": 10, "special_alloy": 25}


@dataclass(frozen=True, slots=True)
class Rates:
    """Settings ``SHOP``, and what a manager changed from a day on, as a frozen value.

    Money in the shop's currency, lengths in inches (metric bars: millimetres), weights in pounds
    (metric: kilograms), rates as fractions, lead in working days. All invented. ``tax_rate`` is on
    goods and work wherever no rule of ``tax_rules`` names a place. ``numbers``: the dated sets in
    it, newest last; none where the settings alone speak.
    """

    name: str = "Otterhithe Shaft Desk"
    currency: str = ""
    tax_rate: Decimal = Decimal("0.07")
    tax_rules: tuple[TaxRule, ...] = ()
    validity_days: int = 30
    minimum_order: Decimal = Decimal(120)
    rush_rate: Decimal = Decimal("0.25")
    drop_rate: Decimal = Decimal("0.5")
    drop_under_in: Decimal = Decimal(24)
    discount_limit: Decimal = Decimal("0.15")
    deposit_over: Decimal = Decimal(500)
    deposit_part: Decimal = Decimal("0.5")
    freight_classes: FreightClasses = _LENGTHS_IN
    freight_weights: FreightClasses = _WEIGHTS_LB
    freight_girths: FreightClasses = _GIRTHS_IN
    freight_classes_mm: FreightClasses = _LENGTHS_MM
    freight_weights_kg: FreightClasses = _WEIGHTS_KG
    freight_girths_mm: FreightClasses = _GIRTHS_MM
    tube_extra_in: Decimal = Decimal(4)
    tube_wider_in: Decimal = Decimal(2)
    straighten_free_in: Decimal = Decimal(48)
    saw_in: Decimal = Decimal("0.25")
    charge_step_in: Decimal = Decimal(1)
    saw_mm: Decimal = Decimal(6)
    charge_step_mm: Decimal = Decimal(10)
    lead_days: Mapping[str, int] = field(default_factory=lambda: dict(_LEAD))
    shafts_per_day: int = 2
    saw_waits_for_deposit: bool = False
    numbers: tuple[int, ...] = ()

    @classmethod
    def of(cls, shop: Mapping[str, Any]) -> Rates:
        """Rates from the setting; what it does not name keeps the default."""
        known = {each.name for each in fields(cls)}
        return cls(**{name: value for name, value in shop.items() if name in known})

    @property
    def taxes(self) -> tuple[TaxRule, ...]:
        """Every rule of tax, the rate that holds everywhere among them."""
        everywhere = (TaxRule("", "", kind, self.tax_rate) for kind in (GOODS, WORK))
        own = {rule.kind for rule in self.tax_rules if not rule.country and not rule.postcode}
        return (*(rule for rule in everywhere if rule.kind not in own), *self.tax_rules)
