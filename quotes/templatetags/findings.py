"""``{% shop_findings quote %}``: what the desk should look at once more on a quote."""

from __future__ import annotations

from typing import Any

from django import template

from quotes.findings.selectors import findings_of
from quotes.models import Quote

register = template.Library()


@register.inclusion_tag("quotes/_shop_findings.html")
def shop_findings(quote: Quote) -> dict[str, Any]:
    """The findings of a quote that has gone out; nothing at all where there are none."""
    return {"findings": findings_of(quote)}
