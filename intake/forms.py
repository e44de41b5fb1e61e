"""From the boxes of a page to the body the API takes: one form, three doors.

Names of boxes: `answers.<slug>.text`, `.method`, `.state`; `answers.<slug>` for a choice;
`answers.<slug>.<part>` for an answer in parts; `contact.name`; `tape_unit`; `wants`. An empty box
is a question that was not asked. What is typed goes on as it is; `read_sheet` reads it.
"""

from __future__ import annotations

from typing import Any

from django.http import QueryDict
from django.utils.translation import gettext as _

from intake.domain.questions import COMPOSITES, QUESTIONS
from intake.domain.reading import read_sheet
from intake.domain.sheet import Sheet, SheetErrors

_CONTACT = ("name", "phone", "email", "role")
_PLAIN = ("job", "alloy", "use")
_READ = ("text", "method", "start_mark")
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
    sent = {name.split(".")[1] for name in post if name.startswith("answers.")}
    told = {slug: _answer(post, slug) for slug in QUESTIONS if slug in sent}
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
    parts = _READ if kind == "measured" else COMPOSITES.get(slug, ())
    given = _filled({part: post.get(f"{name}.{part}", "") for part in parts})
    again = _filled({part: post.get(f"{name}.again.{part}", "") for part in _READ})
    if again.get("text"):
        given["again"] = again
    return given if set(given) - _HOW else None


def _filled(boxes: dict[str, str]) -> dict[str, Any]:
    """The boxes with something in them."""
    return {name: text.strip() for name, text in boxes.items() if text.strip()}


class FormErrors(ValueError):
    """The customer's form needs another look: path of the answer -> kind sentences."""

    def __init__(self, errors: dict[str, list[str]]) -> None:
        super().__init__(", ".join(errors))
        self.errors = errors


def read_form(post: QueryDict) -> tuple[dict[str, Any], Sheet]:
    """The body of a customer's form and what it says, or `FormErrors` with every sentence."""
    body, errors, sheet = body_from_post(post), _customers_errors(post), None
    try:
        sheet = read_sheet(body, contact_needed=True)
    except SheetErrors as refused:
        errors = _kind(_by_reading(body, refused.errors)) | errors
    if errors or sheet is None:
        raise FormErrors(errors)
    return body, sheet


def _customers_errors(post: QueryDict) -> dict[str, list[str]]:
    """What a form may ask of a customer and an API body need not say."""
    errors: dict[str, list[str]] = {}
    if not post.get("contact.phone", "").strip() and not post.get("contact.email", "").strip():
        errors["contact.phone"] = [_("Please leave a phone number or an e-mail address.")]
    for slug in QUESTIONS:
        typed = (
            post.get(f"answers.{slug}", "").strip() or post.get(f"answers.{slug}.text", "").strip()
        )
        if typed and post.get(f"answers.{slug}.state"):
            errors[f"answers.{slug}"] = [
                _("There is an answer here and a tick that you can't give one. Keep one of them.")
            ]
    return errors


def _kind(errors: dict[str, list[str]]) -> dict[str, list[str]]:
    """The reader's sentences; where it speaks to programs, one for people."""
    people = {"wants": _("Tick at least one thing that you want from us.")}
    return {
        path: [people[path]] if path in people else sentences for path, sentences in errors.items()
    }


def _by_reading(body: dict[str, Any], errors: dict[str, list[str]]) -> dict[str, list[str]]:
    """The reader names the answer; where the second reading is at fault, name that instead."""
    found = dict(errors)
    for path in errors:
        answer = body["answers"].get(path.removeprefix("answers."))
        if not isinstance(answer, dict) or "again" not in answer:
            continue
        if "text" not in answer:
            found[path] = [_("Please give the first reading too.")]
        elif _reads_alone(body, path.removeprefix("answers."), answer):
            found[f"{path}.again"] = found.pop(path)
    return found


def _reads_alone(body: dict[str, Any], slug: str, answer: dict[str, Any]) -> bool:
    first = {name: told for name, told in answer.items() if name != "again"}
    try:
        read_sheet({**body, "contact": {}, "wants": ["shaft"], "answers": {slug: first}})
    except SheetErrors:
        return False
    return True
