"""What a sheet says that facts are made of: which answers it has, and whether they moved."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from decimal import Decimal
from typing import Any

Body = Mapping[str, Any]
Readings = Mapping[str, Mapping[str, Any]]
_DISTANCES = ("face_to_strut_aft", "old_length_face_to_thread")
_LETTERS = {"shaft": "s", "coupling": "c", "bearing": "b"}
MOST_OFF = 2  # standard uncertainties a number may move by before it counts as changed


def answered(body: Body) -> list[str]:
    """The answers a sheet has; what cannot be measured or does not apply is none."""
    said = body.get("answers") or {}
    return sorted(slug for slug, value in said.items() if not _is_state(value))


def _is_state(value: object) -> bool:
    return isinstance(value, Mapping) and "state" in value


def parts_letters(body: Body) -> str:
    """What is wanted, as letters in a fixed order.

    >>> parts_letters({"wants": ["bearing", "shaft"]})
    'sb'
    """
    wants = body.get("wants") or ()
    return "".join(letter for part, letter in _LETTERS.items() if part in wants)


def method_of(readings: Readings) -> str:
    """How the strut distance was taken, or else the old shaft."""
    return next((str(readings[slug]["method"]) for slug in _DISTANCES if slug in readings), "")


def layout_of(body: Body) -> str:
    """The drive's layout, where it was told."""
    value = (body.get("answers") or {}).get("drive_layout")
    return value if isinstance(value, str) else ""


def moved(slugs: Iterable[str], before: Mapping[str, Any], after: Mapping[str, Any]) -> bool:
    """Whether one of these answers is another one: a length by more than its tolerance.

    ``before`` and ``after``: {"body": ..., "readings": ...} of two versions of a sheet.
    """
    return any(_moved(slug, before, after) for slug in slugs)


def _moved(slug: str, before: Mapping[str, Any], after: Mapping[str, Any]) -> bool:
    old, new = before["readings"].get(slug), after["readings"].get(slug)
    if old and new:
        off = abs(Decimal(old["mm"]) - Decimal(new["mm"]))
        return off > MOST_OFF * Decimal(old["u_mm"])
    said, says = (side["body"].get("answers", {}).get(slug) for side in (before, after))
    return said is not None and says is not None and said != says


def part_codes(outcome: Mapping[str, Any]) -> frozenset[str]:
    """The catalogue's parts a verdict chose."""
    return frozenset(part["code"] for part in outcome.get("parts") or ())


def holding(outcome: Mapping[str, Any]) -> dict[str, tuple[str, ...]]:
    """The checks that hold a sheet, each with its answers."""
    return {
        finding["check"]: tuple(finding["answers"])
        for finding in outcome.get("findings") or ()
        if finding["severity"] != "note"
    }
