"""The form of metals and options, for the pages that include it."""

from __future__ import annotations

from typing import Any

from django import template
from django.http import QueryDict
from django.template import Context

from quotes.choosing.page import ChoicePage, choice_page

register = template.Library()


@register.simple_tag(takes_context=True)
def customer_choices(context: Context, page: Any) -> ChoicePage | None:
    """What the customer can choose; only while the quote waits for an answer."""
    if not page.can_answer:
        return None
    return choice_page(page.sheet, page.quote, _typed(context), staff=False)


@register.simple_tag(takes_context=True)
def staff_choices(context: Context, page: Any) -> ChoicePage | None:
    """What staff can choose for the customer; for whatever is not agreed on."""
    return choice_page(page.sheet, page.quote, _typed(context), staff=True)


def _typed(context: Context) -> QueryDict | None:
    """What was sent, where the page is shown again with it."""
    request = context.get("request")
    return request.POST if request is not None and request.method == "POST" else None
