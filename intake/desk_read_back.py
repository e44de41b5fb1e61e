"""Read everything back to the caller: a page to say aloud and to print. Stores nothing."""

from __future__ import annotations

from collections.abc import Mapping
from functools import cache
from typing import Any

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_POST

from intake.access import counter_required
from intake.desk_boxes import Box
from intake.desk_check import readable
from intake.desk_fields import contact_fields, is_measured, sections
from intake.desk_ways import told_at_desk
from intake.desk_words import PARTS
from intake.domain.read_back import PageWords, Sentence, read_back
from intake.domain.sheet import Sheet
from intake.forms import body_from_post


@counter_required
@require_POST
def desk_read_back(request: HttpRequest) -> HttpResponse:
    """What is typed so far, as sentences: a part of the call page for its script, else a page."""
    part = request.headers.get("X-Part") == "1"
    page = "intake/_desk_said.html" if part else "intake/desk_read_back.html"
    body = told_at_desk({**body_from_post(request.POST), "channel": "phone"})
    return render(request, page, {"sentences": sentences_of(body)})


def sentences_of(body: Mapping[str, Any]) -> tuple[Sentence, ...]:
    """The body as sentences; what cannot be read of it is named as it was typed."""
    good, sheet, errors = readable(body)
    given = {**(body.get("answers") or {}), **_contact(body)}
    wrong = (".".join(key.split(".")[:2]).removeprefix("answers.") for key in errors)
    unread = {key: _typed(given[key]) for key in wrong if key in given}
    return read_back(sheet or Sheet(), page_words(), unread, good.get("answers") or {})


def _contact(body: Mapping[str, Any]) -> dict[str, Any]:
    return {f"contact.{part}": text for part, text in (body.get("contact") or {}).items()}


def _typed(answer: Any) -> str:
    """An answer as it was typed, its parts one after the other."""
    if isinstance(answer, dict):
        return ", ".join(_typed(part) for name, part in answer.items() if name != "method")
    return ", ".join(map(_typed, answer)) if isinstance(answer, list) else str(answer or "")


@cache
def page_words() -> PageWords:
    """The names the call page uses, in its order."""
    fields = {f.key.removeprefix("answers."): f for part in sections({}, {}) for f in part.fields}
    return PageWords(
        labels={field.key: str(field.label) for field in contact_fields({}, {})}
        | {slug: str(field.label) for slug, field in fields.items()},
        choices={slug: _named(field.boxes[0]) for slug, field in fields.items()},
        parts={slug: {name: str(word) for name, word, _o in told} for slug, told in PARTS.items()},
        part_choices={
            (slug, box.name.rpartition(".")[2]): _named(box)
            for slug, field in fields.items()
            if not is_measured(slug)
            for box in field.boxes
        },
    )


def _named(box: Box) -> dict[str, str]:
    return {value: str(word) for value, word in box.options}
