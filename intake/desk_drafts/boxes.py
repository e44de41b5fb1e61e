"""Between the boxes of the call page, the form that carries them, and the API's body.

A box is a name and its text. What is ticked or chosen several times ("wants", an answer that is a
list) is one box whose text is the comma-joined list; a tick box that is not ticked is empty.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from functools import cache
from typing import Any

from django.http import QueryDict

from intake.desk_ways import told_at_desk
from intake.domain.questions import BARE_PART, COMPOSITES, QUESTIONS
from intake.domain.reading import WANTS
from intake.forms import body_from_post

Texts = Mapping[str, str]

TICKED = "cannot_measure"  # what a ticked "cannot measure" says
_TOP = ("tape_unit", "job", "alloy", "use")
_CONTACT = ("name", "phone", "email", "role")
_READ = ("text", "method", "start_mark")
_OURS = ("answers.", "contact.")


def call_body(typed: QueryDict) -> dict[str, Any]:
    """The boxes as the API's body: the same form as every other door, told by phone."""
    return told_at_desk({**body_from_post(typed), "channel": "phone"})


def body_of(boxes: Texts) -> dict[str, Any]:
    """The API's body of boxes that were kept."""
    return call_body(as_form(boxes))


@cache
def known_boxes() -> frozenset[str]:
    """Every box that any question, the contact or the order can have."""
    names = {"wants", *_TOP, *(f"contact.{part}" for part in _CONTACT)}
    for slug, question in QUESTIONS.items():
        if question.kind != "elsewhere":
            names |= {f"answers.{slug}{part}" for part in _parts(slug, question.kind)}
    return frozenset(names)


def _parts(slug: str, kind: str) -> Iterator[str]:
    yield from ("", ".state")
    if kind == "measured":
        yield from (f".{part}" for part in _READ)
        yield from (f".again.{part}" for part in _READ)
    yield from (f".{part}" for part in COMPOSITES.get(slug, ()))


def is_ours(name: str) -> bool:
    """Whether a form's field is meant to be a box at all, known or not."""
    return name in known_boxes() or name.startswith(_OURS)


def is_many(name: str) -> bool:
    """Whether the box holds several words, joined by commas."""
    slug = name.removeprefix("answers.")
    return name == "wants" or (slug in QUESTIONS and QUESTIONS[slug].kind == "list")


def texts_in(form: QueryDict) -> dict[str, str]:
    """Every box of a form with its text, known or not; what could be ticked and is not is empty."""
    texts = {name: _text(form, name) for name in form if is_ours(name)}
    for state in {f"{_answer_of(name)}.state" for name in texts} & known_boxes():
        texts.setdefault(state, "")
    if "tape_unit" in texts:  # it is always on the page, and the ticks are beside it
        texts.setdefault("wants", "")
    return texts


def _text(form: QueryDict, name: str) -> str:
    return ",".join(form.getlist(name)) if is_many(name) else form.get(name, "")


def _answer_of(name: str) -> str:
    return ".".join(name.split(".")[:2])


def as_form(boxes: Texts) -> QueryDict:
    """The boxes as a browser would post them."""
    form = QueryDict(mutable=True)
    for name, text in boxes.items():
        words = [word for word in text.split(",") if word] if is_many(name) else [text]
        form.setlist(name, words)
    return form


def boxes_of(body: Mapping[str, Any]) -> dict[str, str]:
    """The boxes that say what a stored body says; the other way round from `body_from_post`.

    What no box can say (supports, yes or no) has none: see `corrected`, which keeps it.
    """
    wants = body.get("wants") or ()
    boxes = {"wants": ",".join(want for want in WANTS if want in wants)}
    boxes |= {name: _plain(body.get(name)) for name in _TOP}
    contact = body.get("contact") or {}
    boxes |= {f"contact.{part}": _plain(contact.get(part)) for part in _CONTACT}
    for slug, answer in (body.get("answers") or {}).items():
        if slug in QUESTIONS:
            boxes |= _answer_boxes(slug, answer)
    return {name: text for name, text in boxes.items() if text}


def _answer_boxes(slug: str, answer: Any) -> dict[str, str]:
    name, kind = f"answers.{slug}", QUESTIONS[slug].kind
    if kind == "list":
        words = [answer] if isinstance(answer, str) else list(answer or ())
        plain = all(isinstance(word, str) for word in words)
        return {name: ",".join(words)} if plain else {}
    if not isinstance(answer, Mapping):
        bare = "text" if kind == "measured" else BARE_PART.get(slug, "")
        return {f"{name}.{bare}" if bare else name: _plain(answer)}
    if "state" in answer:
        return {f"{name}.state": _plain(answer["state"])}
    boxes = {f"{name}.{part}": _plain(told) for part, told in answer.items() if part != "again"}
    if again := answer.get("again"):
        boxes |= {f"{name}.again.{part}": _plain(told) for part, told in again.items()}
    return boxes


def _plain(told: Any) -> str:
    """A text or a count as typed; empty for what a box cannot say."""
    if isinstance(told, bool) or not isinstance(told, str | int):
        return ""
    return str(told)
