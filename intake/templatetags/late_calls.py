"""How many calls should have been made by now: beside their link and in the queue's heading."""

from __future__ import annotations

from typing import Any

from django import template
from django.template.context import Context

from intake.calling.selectors import LATE_MOST, late_count

register = template.Library()
_KEPT = "_late_calls"


@register.simple_tag(takes_context=True)
def late_calls(context: Context) -> int:
    """Asked once a page, and only for whoever may see requests; LATE_MOST stands for many."""
    request: Any = context.get("request")
    if request is None or not request.user.has_perm("intake.view_submission"):
        return 0
    if not hasattr(request, _KEPT):
        setattr(request, _KEPT, late_count())
    return int(getattr(request, _KEPT))


@register.filter
def at_most(count: int) -> str:
    """A count for people: where it was counted no further, it says so.

    >>> at_most(3), at_most(100)
    ('3', '100 or more')
    """
    return f"{count} or more" if count >= LATE_MOST else str(count)
