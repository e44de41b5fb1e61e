"""What a handed-over draft may hold: names of boxes and what was typed in them, nothing else."""

from __future__ import annotations

import re
from collections.abc import Mapping
from typing import Any

MOST_BOXES, LONGEST_TEXT, MOST_OPENED = 250, 1000, 12
KEYS = frozenset({"values", "opened", "at"})
_BOX = re.compile(r"(?:answers|contact|tape_unit|wants)(?:\.[a-z_]{1,60}){0,4}")
_SLUG = re.compile(r"[a-z_.]{1,60}")


class ShapeError(ValueError):
    """The draft is none of ours; the message says why in a few words."""


def checked(draft: object) -> dict[str, Any]:
    """The draft as it may be stored.

    Raises ShapeError where a key, a box's name or a value is not one that the path makes.
    """
    if not isinstance(draft, dict) or not set(draft) <= KEYS or "values" not in draft:
        raise ShapeError("A draft has values, and may have opened and at.")
    return {
        "values": _values(draft["values"]),
        "opened": _opened(draft.get("opened", [])),
        "at": _slug(draft.get("at", "")),
    }


def _values(values: object) -> Mapping[str, str | list[str]]:
    if not isinstance(values, dict) or len(values) > MOST_BOXES:
        raise ShapeError(f"Values are at most {MOST_BOXES} boxes by their names.")
    for name, value in values.items():
        if not _BOX.fullmatch(str(name)) or not _is_typed(value):
            raise ShapeError("There is a box in it that the path does not have.")
    return values


def _is_typed(value: object) -> bool:
    texts = value if isinstance(value, list) else [value]
    return len(texts) <= 20 and all(isinstance(t, str) and len(t) <= LONGEST_TEXT for t in texts)


def _opened(opened: object) -> list[dict[str, str]]:
    if not isinstance(opened, list) or len(opened) > MOST_OPENED:
        raise ShapeError(f"Opened are at most {MOST_OPENED} questions.")
    return [_one_opened(one) for one in opened]


def _one_opened(one: object) -> dict[str, str]:
    if not isinstance(one, dict) or set(one) != {"slug", "ask"} or not _is_typed(one["ask"]):
        raise ShapeError("An opened question has a slug and an ask.")
    return {"slug": _slug(one["slug"]), "ask": str(one["ask"])}


def _slug(slug: object) -> str:
    if slug != "" and (not isinstance(slug, str) or not _SLUG.fullmatch(slug)):
        raise ShapeError("A question is named by its slug.")
    return str(slug)
