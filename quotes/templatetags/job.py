"""``{% job_strip submission %}``: where an accepted job stands, on every page of it."""

from __future__ import annotations

from typing import Any

from django import template
from django.template import Context

from intake.models import Submission
from quotes.job_strip import steps_of

register = template.Library()


@register.inclusion_tag("quotes/_job_strip.html", takes_context=True)
def job_strip(context: Context, submission: Submission) -> dict[str, Any]:
    """The steps, each with a link for whoever may open its page; nothing before a yes."""
    request: Any = context["request"]
    may = request.user.has_perm
    rows = [(one, bool(one.url) and may(one.right)) for one in steps_of(submission)]
    return {"steps": rows, "path": request.path, "submission": submission}
