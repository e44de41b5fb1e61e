"""How the counter says a way of measuring after a number: "44 1/8 rod", "1 caliper".

Only whole words of this table count, and only those of the ways listed for the question; what is
no such word goes to the tape language as it was typed. None of the words means anything to the
tape language itself, so nothing is taken from it.
"""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any

from intake.domain.questions import QUESTIONS

# method: what may be typed for it; the first is the one the page shows.
FORMS: dict[str, tuple[str, ...]] = {
    "caliper": ("caliper", "calipers", "cal"),
    "caliper_in_place": ("in place", "caliper in place", "cal in place"),
    "paper_strip": ("strip", "paper strip", "paper"),
    "wrench_32": ("spanner 32", "sp 32"),
    "wrench_16": ("spanner", "spanner 16", "sp 16"),
    "tape_across": ("across", "tape across"),
    "tape_short": ("short tape", "st"),
    "tape": ("tape", "both ends"),
    "tape_helper": ("helper", "tape helper"),
    "tape_one_hand": ("one hand", "hand", "tape one hand"),
    "rod": ("rod",),
    "pieces": ("pieces", "in pieces"),
    "laser": ("laser",),
    "along_old_shaft": ("along old shaft", "old shaft", "along"),
    "drill_shank": ("drill", "shank", "drill shank"),
    "rule": ("rule", "steel rule"),
    "eye": ("eye",),
    "papers": ("papers", "memory"),
    "mark": ("mark", "stamped", "moulded"),
    "plug": ("plug",),
    "feeler": ("feeler",),
}
_LEADS = ("with a ", "with ", "by ", "from ")
CANNOT = frozenset({"cannot", "can't", "cant", "?"})


def ways_of(slug: str) -> tuple[str, ...]:
    """The ways listed for a measured question, its usual one among them; none for others."""
    question = QUESTIONS.get(slug)
    if question is None or question.kind != "measured":
        return ()
    return tuple(dict.fromkeys([*question.methods, question.default_method]))


def split_way(slug: str, text: str) -> tuple[str, str]:
    """The number alone, and the way that was said after it or "".

    >>> split_way("face_to_strut_aft", "44 1/8 by rod"), split_way("gap_now", "3/4 rod")
    (('44 1/8', 'rod'), ('3/4 rod', ''))
    >>> split_way("hub_length", "2 15/16")
    ('2 15/16', '')
    """
    said = " ".join(text.split())
    for form, way in _forms_of(slug):
        number = said[: -len(form)]
        if said.casefold().endswith(form) and number[-1:] in (" ", ",", ";"):
            return _without_lead(number), way
    return text, ""


@cache
def _forms_of(slug: str) -> tuple[tuple[str, str], ...]:
    """Every form of the question's ways, the longest first: "short tape" is not "tape"."""
    forms = [(form, way) for way in ways_of(slug) for form in FORMS[way]]
    return tuple(sorted(forms, key=lambda pair: -len(pair[0])))


def _without_lead(number: str) -> str:
    """The number without the comma or the "by" that joined it to its way."""
    number = number.rstrip(" ,;") + " "
    for lead in _LEADS:
        if number.casefold().endswith(f" {lead}"):
            return number[: -len(lead)].rstrip(" ,;")
    return number.rstrip()


def cannot_be_told(text: str) -> bool:
    """Whether what was typed instead of a number says that there is none to be had.

    >>> cannot_be_told(" Can't "), cannot_be_told("3/4 ?")
    (True, False)
    """
    return text.strip().replace("\u2019", "'").casefold() in CANNOT


def told_at_desk(body: Mapping[str, Any]) -> dict[str, Any]:
    """The body with each way of measuring split off its number, and "cannot" as an answer.

    >>> told_at_desk({"answers": {"gap_now": {"text": "3/4 drill", "method": "tape"}}})
    {'answers': {'gap_now': {'text': '3/4', 'method': 'drill_shank'}}}
    >>> told_at_desk({"answers": {"thread": {"text": "?"}}})
    {'answers': {'thread': {'state': 'cannot_measure'}}}
    """
    answers = body.get("answers") or {}
    return {**body, "answers": {slug: _told(slug, answer) for slug, answer in answers.items()}}


def _told(slug: str, answer: Any) -> Any:
    if isinstance(answer, list):  # several of a list are one choice of the page, joined by commas
        return [one for item in answer for one in str(item).split(",")]
    if not isinstance(answer, dict) or "state" in answer:
        return answer
    said = {part: text for part, text in answer.items() if part != "method"}
    # A second part beside it would be lost: then the reader refuses the word and says so.
    if len(said) == 1 and all(isinstance(t, str) and cannot_be_told(t) for t in said.values()):
        return {"state": "cannot_measure"}
    number, way = split_way(slug, str(answer.get("text", "")))
    return {**answer, "text": number, "method": way} if way else answer
