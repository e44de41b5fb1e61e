"""What the tag on a shaft says. No name, no phone, no price: anybody may read it."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class TagFacts:
    """Everything on a tag; the same facts make the same bytes."""

    shop: str
    number: str
    boat: str
    length: str
    alloy: str
    heat: str
    address: str
