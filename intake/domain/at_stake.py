"""What would be cut or sent wrong if nobody called: the price of the parts of one sheet."""

from __future__ import annotations

from collections.abc import Iterable
from decimal import ROUND_CEILING, Decimal
from typing import NamedTuple

from catalog.domain.lengths import NM_PER_INCH, NM_PER_MM, Length

_COUNTED = ("bar", "coupling", "bearing")
_UNITS = {"in": NM_PER_INCH, "mm": NM_PER_MM}


class PricedPart(NamedTuple):
    """One part of the catalogue: ``price`` for one ``per`` ("in", "mm" or "each")."""

    kind: str
    price: Decimal
    per: str
    quantity: int = 1


def at_stake(
    parts: Iterable[PricedPart], overall: Length | None, facing_and_saw: Length
) -> Decimal | None:
    """Bar by its charged length, coupling and bearings, rounded up to whole money.

    ``overall`` is the shaft's whole length, to which facing and saw are added. It orders calls, it
    is no price: nuts, keys, work and freight are left out. None where no part is known.
    """
    counted = [part for part in parts if part.kind in _COUNTED]
    if not counted:
        return None
    needed = overall + facing_and_saw if overall else None
    total = sum((_amount(part, needed) for part in counted), Decimal(0))
    return total.to_integral_value(ROUND_CEILING)


def _amount(part: PricedPart, needed: Length | None) -> Decimal:
    """A bar is charged by whole inches or millimetres begun; everything else by the piece."""
    if part.per not in _UNITS:
        return part.price * part.quantity
    if needed is None:
        return Decimal(0)
    return part.price * -(-needed.nm // _UNITS[part.per])
