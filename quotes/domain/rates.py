"""The desk's own rules of price: what is not a row of the catalogue."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from decimal import Decimal
from typing import Any

FreightClasses = tuple[tuple[Decimal | None, Decimal], ...]

_FREIGHT: FreightClasses = (
    (Decimal(48), Decimal(22)),
    (Decimal(72), Decimal(41)),
    (Decimal(96), Decimal(68)),
    (Decimal(108), Decimal(110)),
    (None, Decimal(190)),
)
_LEAD = {"blank": 3, "bar": 8, "coupling": 10, "special_alloy": 25}


@dataclass(frozen=True, slots=True)
class Rates:
    """Settings ``SHOP`` as a frozen value. Money in the shop's currency, lengths in inches
    (metric bars: millimetres), rates as fractions, lead in working days. All invented.
    """

    name: str = "Otterhithe Shaft Desk"
    currency: str = ""
    tax_rate: Decimal = Decimal("0.07")
    validity_days: int = 30
    minimum_order: Decimal = Decimal(120)
    rush_rate: Decimal = Decimal("0.25")
    freight_classes: FreightClasses = _FREIGHT
    tube_extra_in: Decimal = Decimal(4)
    straighten_free_in: Decimal = Decimal(48)
    saw_in: Decimal = Decimal("0.25")
    charge_step_in: Decimal = Decimal(1)
    saw_mm: Decimal = Decimal(6)
    charge_step_mm: Decimal = Decimal(10)
    lead_days: Mapping[str, int] = field(default_factory=lambda: dict(_LEAD))

    @classmethod
    def of(cls, shop: Mapping[str, Any]) -> Rates:
        """Rates from the setting; what it does not name keeps the default."""
        known = {each.name for each in fields(cls)}
        return cls(**{name: value for name, value in shop.items() if name in known})
