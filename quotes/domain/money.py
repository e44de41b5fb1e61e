"""Money: Decimal from end to end, rounded in one place."""

from __future__ import annotations

from decimal import ROUND_HALF_UP, Decimal

_CENT = Decimal("0.01")


def to_money(amount: Decimal) -> Decimal:
    """Round to cents, half away from zero. The only rounding in the project.

    >>> to_money(Decimal("42.9205")), to_money(Decimal("21.425"))
    (Decimal('42.92'), Decimal('21.43'))
    """
    return amount.quantize(_CENT, ROUND_HALF_UP)


def money_text(amount: Decimal) -> str:
    """Money as people read it, with a thin thousands mark: ``1 234.50``."""
    return f"{amount:,.2f}".replace(",", "\N{NO-BREAK SPACE}")
