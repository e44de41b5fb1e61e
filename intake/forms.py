"""From the boxes of a page to the body the API takes: one form, three doors.

Names of boxes: `answers.<slug>.text`, `.method`, `.state`; `answers.<slug>` for a choice;
`answers.<slug>.<part>` for an answer in parts; `contact.name`; `tape_unit`; `wants`. An empty box
is a question that was not asked. What is typed goes on as it is; `read_sheet` reads it.
"""

from __future__ import annotations

from typing import Any

from django.http import QueryDict

from intake.domain.questions import COMPOSITES, QUESTIONS

_CONTACT = ("name", "phone", "email", "role")
_PLAIN = ("job", "alloy", "use")
_HOW = {"method", "start_mark"}  # says how, not what: alone it is no answer


def body_from_post(post: QueryDict, channel: str = "form") -> dict[str, Any]:
    """The API's body of what was typed; unknown boxes are left alone."""
    body: dict[str, Any] = {
        "channel": channel,
        "tape_unit": post.get("tape_unit") or None,
        "wants": post.getlist("wants"),
        "contact": _filled({name: post.get(f"contact.{name}", "") for name in _CONTACT}),
        "answers": _answers(post),
    }
    return body | _filled({name: post.get(name, "") for name in _PLAIN})


def _answers(post: QueryDict) -> dict[str, Any]:
    """Every question with something in its boxes."""
    told = {slug: _answer(post, slug) for slug in QUESTIONS}
    return {slug: answer for slug, answer in told.items() if answer}


def _answer(post: QueryDict, slug: str) -> Any:
    """One answer in the API's shape, or None."""
    name, kind = f"answers.{slug}", QUESTIONS[slug].kind
    if state := post.get(f"{name}.state", "").strip():
        return {"state": state}
    if kind == "list":
        return [item for item in post.getlist(name) if item]
    if bare := post.get(name, "").strip():
        return bare
    parts = ("text", "method", "start_mark") if kind == "measured" else COMPOSITES.get(slug, ())
    given = _filled({part: post.get(f"{name}.{part}", "") for part in parts})
    again = _filled({part: post.get(f"{name}.again.{part}", "") for part in ("text", "method")})
    if again.get("text"):
        given["again"] = again
    return given if set(given) - _HOW else None


def _filled(boxes: dict[str, str]) -> dict[str, Any]:
    """The boxes with something in them."""
    return {name: text.strip() for name, text in boxes.items() if text.strip()}
