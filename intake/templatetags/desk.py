"""Template tags of the call page: its chords, and the words for ways of measuring."""

from __future__ import annotations

from typing import Any

from django import template

from intake.desk_fields import contact_fields, order_boxes, sections
from intake.desk_order import CODES, DEEDS
from intake.desk_ways import FORMS
from intake.desk_words import Words
from intake.domain.methods import METHOD_WORDS

register = template.Library()


@register.simple_tag
def chord(key: str) -> str:
    """``{% chord "wants" %}``: the two letters that lead there, or "" where nothing does."""
    return CODES.get(key, "")


@register.inclusion_tag("intake/_desk_chords.html")
def desk_chords() -> dict[str, Any]:
    """Every chord with what it reaches, and every word for a way of measuring."""
    ways = [(", ".join(FORMS[way]), words) for way, words in METHOD_WORDS.items()]
    return {"deeds": DEEDS, "reached": _reached(), "ways": ways}


def _reached() -> list[tuple[str, Words]]:
    """Code and label of every field, in the order of the page."""
    fields = [*contact_fields({}, {}), *(f for part in sections({}, {}) for f in part.fields)]
    order = [("wants", "Order"), *((box.name, box.label) for box in order_boxes({}))]
    named = [(field.code, field.label) for field in fields]
    return [*named[:4], *((CODES[key], label) for key, label in order), *named[4:]]
