"""``{% staff_menu as menu %}``: the pages this person may open, for the head of every page."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django import template
from django.template import Context
from django.urls import reverse

from staff.menu import Entry, menu

register = template.Library()


@dataclass(frozen=True)
class Link:
    """An entry with its address; `here` on the page it leads to."""

    url: str
    words: str
    name: str
    here: bool


@register.simple_tag(takes_context=True)
def staff_menu(context: Context) -> dict[str, Any]:
    """`at_hand`: links that stand open; `drawers`: a word, its links, whether we are in it."""
    request: Any = context["request"]
    at_hand, drawers = menu(request.user.has_perm)
    return {
        "at_hand": _links(at_hand, request.path),
        "drawers": [_drawer(one.words, _links(one.entries, request.path)) for one in drawers],
    }


def _drawer(words: str, links: list[Link]) -> dict[str, Any]:
    return {"words": words, "links": links, "here": any(link.here for link in links)}


def _links(entries: tuple[Entry, ...], path: str) -> list[Link]:
    made = ((one, reverse(one.name)) for one in entries)
    return [Link(url, one.words, one.name, url == path) for one, url in made]
