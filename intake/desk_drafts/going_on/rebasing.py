"""A draft that goes on from a stored sheet: what it changes, and what else has changed since."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from intake.desk_drafts.boxes import Texts, as_form, body_of, boxes_of
from intake.desk_ways import told_at_desk
from intake.domain.questions import BARE_PART, QUESTIONS
from intake.forms import body_from_post

Body = Mapping[str, Any]

_TOP = ("tape_unit", "wants", "job", "alloy", "use")


def corrected(base: Body, boxes: Texts) -> dict[str, Any]:
    """The stored body with what the boxes say otherwise; everything else stays letter for letter.

    So what no box can say is kept, and what nobody touched is not written anew.
    """
    old, new, mine = answers_in(_from_boxes(base)), answers_in(body_of(boxes)), body_of(boxes)
    touched = {key for key in {*old, *new} if old.get(key) != new.get(key)}
    body = {**base, "contact": dict(base.get("contact") or {})}
    body["answers"] = dict(base.get("answers") or {})
    for key in sorted(touched):
        _put(body, key, _take(mine, key))
    return body


def _from_boxes(body: Body) -> dict[str, Any]:
    """What the boxes of a body say: the part of it that a page can change."""
    return told_at_desk(body_from_post(as_form(boxes_of(body))))


def answers_in(body: Body) -> dict[str, Any]:
    """Every answer by its key ("answers.gap_now", "contact.phone", "job") in one plain shape."""
    found = {name: body[name] for name in _TOP if body.get(name)}
    contact = body.get("contact") or {}
    found |= {f"contact.{part}": told for part, told in contact.items() if told}
    answers = body.get("answers") or {}
    return found | {f"answers.{slug}": plain(slug, told) for slug, told in answers.items()}


def plain(slug: str, answer: Any) -> Any:
    """One shape for the ways of writing one answer: as parts, as text, with the usual method."""
    kind = QUESTIONS[slug].kind if slug in QUESTIONS else ""
    if kind == "list":
        return [answer] if isinstance(answer, str) else answer
    bare = "text" if kind == "measured" else BARE_PART.get(slug, "")
    if bare and not isinstance(answer, Mapping):
        answer = {bare: answer}
    if not isinstance(answer, Mapping) or "state" in answer:
        return answer
    usual = {"method": QUESTIONS[slug].default_method} if kind == "measured" else {}
    parts = usual | {name: told for name, told in answer.items() if told not in (None, "")}
    return {name: str(told) if isinstance(told, int) else told for name, told in parts.items()}


def _take(body: Body, key: str) -> Any:
    at, _dot, name = key.partition(".")
    return (body.get(at) or {}).get(name) if name else body.get(at)


def _put(body: dict[str, Any], key: str, told: Any) -> None:
    at, _dot, name = key.partition(".")
    place = body[at] if name else body
    if told in (None, ""):
        place.pop(name or at, None)
    else:
        place[name or at] = told


@dataclass(frozen=True, slots=True)
class Moved:
    """One answer that somebody changed since this draft began.

    ``mine`` is what the draft says; ``touched`` whether the draft changed it too, to something
    else: then a person must say which of the two stays.
    """

    key: str
    base: Any
    now: Any
    mine: Any
    touched: bool


def moved(base: Body, now: Body, boxes: Texts) -> list[Moved]:
    """Every answer that is another one on the newer sheet than where the draft began."""
    old, new = answers_in(base), answers_in(now)
    mine = answers_in(corrected(base, boxes))
    keys = [key for key in dict.fromkeys([*old, *new]) if old.get(key) != new.get(key)]
    return [_moved(key, old.get(key), new.get(key), mine.get(key)) for key in keys]


def _moved(key: str, base: Any, now: Any, mine: Any) -> Moved:
    return Moved(key, base, now, mine, touched=mine not in (base, now))


def carried_over(now: Body, boxes: Texts, theirs: frozenset[str]) -> dict[str, str]:
    """The boxes' new texts where the answers ``theirs`` are taken from the newer sheet."""
    newer = boxes_of(now)
    names = [name for name in {**boxes, **newer} if _key_of(name) in theirs]
    return {name: newer.get(name, "") for name in names}


def _key_of(name: str) -> str:
    return ".".join(name.split(".")[:2])
