"""Template tags for know-how and cautions: a sketch, a link to a page, a caution at its step."""

from __future__ import annotations

from functools import cache
from itertools import chain
from typing import Any

from django import template
from django.utils.safestring import SafeString

from intake import know
from intake.cautions import CAUTIONS, cautions_along
from intake.long_path import PARTS_OF_FORM

register = template.Library()


@register.simple_tag
def sketch(name: str) -> SafeString:
    """``{% sketch "drill_gap" %}``: one line drawing."""
    return know.sketch(name)


@register.simple_tag
def know_url(question: str) -> str:
    """``{% know_url asked.plan.slug as url %}``: where its know-how stands, or ""."""
    return know.know_url(question)


@register.inclusion_tag("intake/know/_cautions.html")
def caution(*keys: str) -> dict[str, Any]:
    """``{% caution "boat" "engine" %}``: what to be careful about at this step."""
    return {"cautions": [CAUTIONS[key] for key in keys]}


@register.inclusion_tag("intake/know/_cautions.html")
def cautions_of_form(question: str) -> dict[str, Any]:
    """What the form says at one question; each caution stands once on the page."""
    return {"cautions": [CAUTIONS[key] for key in _along_the_form().get(question, ())]}


@register.inclusion_tag("intake/know/_measure_now.html")
def measure_now(*questions: str) -> dict[str, Any]:
    """``{% measure_now "gap_now" %}``: back to the question this helps with."""
    links = [(know.question_url(slug), know.question_label(slug)) for slug in questions]
    return {"links": links}


@cache
def _along_the_form() -> dict[str, tuple[str, ...]]:
    """What is folded away is not said yet: only what stands in the open counts as heard."""
    along: dict[str, tuple[str, ...]] = {}
    heard: set[str] = set()
    for part in PARTS_OF_FORM:
        said = cautions_along((plan.slug for plan in part.plans), heard)
        along |= said
        if not part.folded:
            heard.update(chain.from_iterable(said.values()))
    return along
