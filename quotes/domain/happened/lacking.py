"""What was asked for and is not in the catalogue, in words that name no customer."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from catalog.domain.lengths import mm

# What tells one part from another; where none of it was measured nothing can be looked for.
_SIZES = {
    "shaft": ("dia_clean",),
    "coupling": ("dia_clean", "flange_od"),
    "bearing": ("dia_clean", "shell_od", "bearing_length"),
}
_KIND = {"shaft": ("bar", "blank"), "coupling": ("coupling",), "bearing": ("bearing",)}
_NAMES = {
    "dia_clean": "shaft",
    "flange_od": "flange",
    "shell_od": "shell",
    "bearing_length": "long",
}


def lacking(body: Mapping[str, Any], readings: Mapping[str, Any], outcome: Any) -> list[str]:
    """A line for each part that was wanted, measured, and matched by nothing.

    What is stopped is not counted: its numbers are not to be looked for.
    """
    calls = outcome.get("verdicts") or {}
    found = {part["kind"] for part in outcome.get("parts") or ()}
    return [
        words
        for want in body.get("wants") or ()
        if calls.get(want) != "stop" and found.isdisjoint(_KIND.get(want, ()))
        if (words := _words(want, readings, outcome))
    ]


def _words(want: str, readings: Mapping[str, Any], outcome: Any) -> str:
    nominal = ((outcome.get("shaft") or {}).get("nominal") or {}).get("mm")
    sizes = []
    for slug in _SIZES.get(want, ()):
        text = nominal if slug == "dia_clean" and nominal else readings.get(slug, {}).get("mm")
        if text:
            sizes.append(f"{_NAMES[slug]} {mm(text).both()}")
    return f"{want}: {', '.join(sizes)}"[:120] if sizes else ""
