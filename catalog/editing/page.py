"""The boxes of a part's page."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from catalog.domain.stock import Kind

_WORDS = {
    "code": "Code",
    "kind": "Kind",
    "system": "Measured in",
    "diameter": "Diameter",
    "description": "In words",
    "price": "Price from today on",
    "per": "Per",
    "stock_length": "Length of a bar or blank",
    "on_hand": "On hand",
    "alloy": "Alloy",
    "flange_od": "Flange outside",
    "bolt_circle": "Bolt circle",
    "direction": "Hub points",
    "bore": "Bore",
    "shell_od": "Shell outside",
    "length": "Length of the part",
    "shell": "Shell of",
}
_CHOICES = {
    "kind": tuple(kind.value for kind in Kind),
    "system": ("inch", "mm", "both"),
    "per": ("in", "mm", "each", "set", "end"),
    "direction": ("", "aft", "forward"),
}
_SIZES = ("diameter", "stock_length", "flange_od", "bolt_circle", "bore", "shell_od", "length")


@dataclass(frozen=True, slots=True)
class Box:
    """One box: its words, what is typed in it, what is wrong, what it is now where that differs."""

    name: str
    words: str
    typed: str
    error: str
    now: str
    options: tuple[str, ...]
    help: str

    @property
    def id(self) -> str:
        """The id of its box."""
        return f"part-{self.name}"


def boxes(typed: Mapping[str, str], now: Mapping[str, str], errors: Mapping[str, str]) -> list[Box]:
    """Every column of the catalogue, in its order."""
    return [
        Box(
            name,
            words,
            typed.get(name, ""),
            errors.get(name, ""),
            now[name] if now.get(name, "") != typed.get(name, "") else "",
            _CHOICES.get(name, ()),
            "With its unit, such as 7/8 in or 25 mm." if name in _SIZES else "",
        )
        for name, words in _WORDS.items()
    ]
