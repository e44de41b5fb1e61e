"""What the call page shows of the question to ask next: words, sketch, and the chord to its box."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from django.utils.safestring import SafeString, mark_safe

from intake.desk_order import CODES
from intake.desk_words import LABELS, Words
from intake.domain.drawing import ASKED, drive_line
from intake.domain.svg import to_svg
from intake.likely import Doubts
from intake.said import said

_WIDTH_MM = 96.0
_MISSING = "missing-critical"


@dataclass(frozen=True, slots=True)
class AskedNext:
    """The one question to read aloud; ``code`` is empty where the page has no box for it."""

    slug: str
    ask: str
    label: Words
    code: str
    svg: SafeString


def asked_next(outcome: Mapping[str, Any]) -> AskedNext | None:
    """The next question of a verdict, or None where nothing is worth asking."""
    question = outcome.get("next_question")
    if not question:
        return None
    slug, stack = str(question["answer"]), outcome.get("stack") or {}
    layout, station = str(stack.get("layout") or ""), str(stack.get("station") or "")
    svg = _sketch(slug, layout, station)
    return AskedNext(slug, said(question["ask"]), _label(slug), CODES.get(slug, ""), svg)


def still_open(outcome: Mapping[str, Any], stated: frozenset[str]) -> tuple[tuple[Words, str], ...]:
    """What a call has not come to yet: the name of each answer and its chord.

    ``stated``: the questions whose answer is that there is none; they are not asked again here.
    """
    missing = (f["answers"][0] for f in _findings(outcome) if _is_missing(f, stated))
    return tuple((_label(slug), CODES[slug]) for slug in missing)


def doubts_of(outcome: Mapping[str, Any], stated: frozenset[str]) -> Doubts:
    """The findings of a call that is being typed; what was merely not said yet is none."""
    return Doubts([finding for finding in _findings(outcome) if not _is_missing(finding, stated)])


def _findings(outcome: Mapping[str, Any]) -> list[Mapping[str, Any]]:
    return list(outcome.get("findings") or ())


def _is_missing(finding: Mapping[str, Any], stated: frozenset[str]) -> bool:
    answer = finding["answers"][0]
    return finding["check"] == _MISSING and answer in CODES and answer not in stated


def _label(slug: str) -> Words:
    return LABELS.get(slug) or slug.replace("_", " ").capitalize()


@lru_cache(maxsize=256)
def _sketch(slug: str, layout: str, station: str) -> SafeString:
    """The drive line with this answer lit and both its ends named; no number stands on it."""
    if slug not in ASKED:
        return SafeString("")
    boat = {"layout": layout, "station": station}
    drawing = drive_line(boat, lit=slug, width_mm=_WIDTH_MM)
    return mark_safe(to_svg(drawing, ident="asked", extra="asked-sketch"))  # noqa: S308 - it escapes
