"""What a manager may filter by, read from an address; what makes no sense is left out."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from urllib.parse import urlencode

from django.http import QueryDict

from intake.domain.methods import METHODS
from intake.selectors import months_back
from quotes.insight.asked import Asked
from quotes.insight.pages.base import month_long

MONTHS_KEPT, MONTHS_SHOWN = 60, 18
CHANNELS = {
    "form": "form",
    "phone": "phone",
    "email": "e-mail",
    "paper": "paper",
    "api": "another program",
}
LAYOUTS = {
    "inline": "straight back",
    "down_angle": "down-angle",
    "v_rear_flange": "V-drive, flange at the back",
    "v_pass_through": "V-drive, shaft passes through",
}
ROLES = {"owner": "owner", "yard": "yard", "crew": "crew", "surveyor": "surveyor"}
PARTS = {"s": "shaft", "c": "coupling", "b": "bearing"}


@dataclass(frozen=True, slots=True)
class Choice:
    """One box of the form."""

    name: str
    words: str
    options: tuple[tuple[str, str], ...]
    chosen: str


def read(asked: QueryDict) -> Asked:
    """Months and circumstances; the last months, and everything, where nothing was asked."""
    kept = months_back(MONTHS_KEPT)
    last = asked.get("to", "")
    last = last if last in kept else kept[-1]
    first = asked.get("from", "")
    first = first if first in kept else kept[max(0, kept.index(last) - MONTHS_SHOWN + 1)]
    chosen = {name: _known(asked.get(name, ""), options) for name, _, options in _boxes()}
    return Asked(min(first, last), max(first, last), **chosen)


def _known(value: str, options: Mapping[str, str]) -> str:
    return value if value in options else ""


def _boxes() -> tuple[tuple[str, str, Mapping[str, str]], ...]:
    methods = {name: name.replace("_", " ") for name in METHODS}
    return (
        ("channel", "Came by", CHANNELS),
        ("method", "Measured by", methods),
        ("layout", "Drive", LAYOUTS),
        ("role", "Who asked", ROLES),
        ("part", "Wanted", PARTS),
    )


def choices(asked: Asked) -> list[Choice]:
    """The boxes of the form, months first."""
    months = tuple((month, month_long(month)) for month in reversed(months_back(MONTHS_KEPT)))
    boxes = [Choice("from", "From", months, asked.first), Choice("to", "To", months, asked.last)]
    for name, words, options in _boxes():
        rows = (("", "all"), *options.items())
        boxes.append(Choice(name, words, rows, getattr(asked, name)))
    return boxes


def query(asked: Asked, **more: str) -> str:
    """The same as an address says it, with more; empty filters are left out."""
    told = {"from": asked.first, "to": asked.last}
    told |= {name: value for name, _, _ in _boxes() if (value := getattr(asked, name))}
    return urlencode(told | more)


def in_words(asked: Asked) -> str:
    """What is looked at, in one line for paper and for a list."""
    told = [f"{month_long(asked.first)} to {month_long(asked.last)}"]
    for name, words, options in _boxes():
        if value := getattr(asked, name):
            told.append(f"{words.lower()} {options[value]}")
    return ", ".join(told)
