"""Money in templates: ``{{ amount|money:currency }}``."""

from __future__ import annotations

from decimal import Decimal

from django import template

from quotes.domain.money import money_text

register = template.Library()


@register.filter
def money(amount: Decimal | None, currency: str = "") -> str:
    """An amount as people read it; "" for none."""
    return "" if amount is None else money_text(amount, currency)
