"""What the card of a question has boxes for, and the answers typed into them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from django.http import QueryDict
from django.utils.translation import gettext_lazy as _

from intake.desk_fields import (
    Box,
    Errors,
    Field,
    Typed,
    answer_field,
    can_be_typed,
    contact_fields,
)
from intake.forms import body_from_post
from intake.second_reading import SINGLE_ROUTE

# What people tell in the same breath: where the tape began, what was tight as the gap was taken.
_TOLD_WITH: dict[str, tuple[str, ...]] = {
    "face_to_strut_aft": ("forward_datum", "shaft_in"),
    "gap_now": ("coupling_state", "prop_seated"),
    "old_length_face_to_thread": ("pin_end",),
    "tail_to_thread": ("pin_end",),
}
# A finding is asked about in the words of its likeliest cause, and those may be of another number.
_GAP = ("gap_now", "coupling_state", "prop_seated")
_ASKED_FOR: dict[str, tuple[str, ...]] = {
    "G-ASSUME": _GAP,
    "G-SLID": _GAP,
    "G-BLADE": _GAP,
    "P-RULE": ("hub_length",),
}
_AGAIN = ("start_mark", "text", "method")

Answers = dict[str, Any]
Reached = dict[str, str]

_CONTACT = "contact."
# Whoever asks for one way to reach the customer takes any.
_HOW_REACHED = ("contact.phone", "contact.email", "contact.name")


def slugs_for(finding: Mapping[str, Any] | None) -> tuple[str, ...]:
    """What is asked for, the finding's answers, what is told with them; only what has boxes."""
    asked = tuple((finding or {}).get("answers", ()))
    if any(slug.startswith(_CONTACT) for slug in asked):
        return _HOW_REACHED
    told_with = [slug for answer in asked for slug in _TOLD_WITH.get(answer, ())]
    slugs = dict.fromkeys([*_in_other_words(finding or {}), *asked, *told_with])
    return tuple(slug for slug in slugs if can_be_typed(slug))


def _in_other_words(finding: Mapping[str, Any]) -> tuple[str, ...]:
    """Numbers the question is about though the finding is not; a second reading asks for itself."""
    likely = finding.get("likely") or ()
    if not likely or finding.get("check") == SINGLE_ROUTE:
        return ()
    return _ASKED_FOR.get(likely[0]["cause"], ())


def reached(slugs: Sequence[str], data: QueryDict) -> Reached:
    """How the customer is reached, by part, where the card asks and something was typed."""
    asked = [slug for slug in slugs if slug.startswith(_CONTACT)]
    typed = {slug.removeprefix(_CONTACT): data.get(slug, "").strip() for slug in asked}
    return {part: text for part, text in typed.items() if text}


def fields_for(
    slugs: Sequence[str], check_id: str, typed: Typed, errors: Errors
) -> tuple[Field, ...]:
    """The boxes of a card; a second reading has its own, the first is left as it is."""
    if slugs == _HOW_REACHED:
        boxes = {field.key: field for field in contact_fields(typed, errors)}
        return tuple(boxes[slug] for slug in slugs)
    fields = [answer_field(slug, typed, errors) for slug in slugs]
    if check_id == SINGLE_ROUTE and fields:
        fields[0] = _second_reading(slugs[0], fields[0], typed)
    return tuple(fields)


def new_answers(
    slugs: Sequence[str], check_id: str, data: QueryDict, before: Mapping[str, Any]
) -> Answers:
    """What was typed, in the API's shape; a second reading joins the first one."""
    told = body_from_post(data)["answers"]
    answers = {slug: told[slug] for slug in slugs if slug in told}
    if check_id == SINGLE_ROUTE and slugs:
        answers |= _with_second(slugs[0], data, before.get(slugs[0]))
    return answers


def corrects(answers: Answers, before: Mapping[str, Any]) -> bool:
    """Whether an answer that was there has become another: then something had been wrong."""
    return any(
        slug in before and _value(before[slug]) != _value(new) for slug, new in answers.items()
    )


def _second_reading(slug: str, field: Field, typed: Typed) -> Field:
    name = f"answers.{slug}.again"
    method = field.boxes[-1]
    boxes = (
        Box(f"{name}.start_mark", _("mark held"), typed.get(f"{name}.start_mark", "")),
        Box(f"{name}.text", _("number read"), typed.get(f"{name}.text", "")),
        Box(
            f"{name}.method",
            _("how"),
            typed.get(f"{name}.method") or method.value,
            method.options,
            always=True,
        ),
    )
    return Field(field.key, _("Second reading"), field.ask, boxes, field.errors, field.state)


def _with_second(slug: str, data: QueryDict, first: Any) -> Answers:
    boxes = {part: data.get(f"answers.{slug}.again.{part}", "").strip() for part in _AGAIN}
    if not boxes["text"]:
        return {}
    again = {part: text for part, text in boxes.items() if text}
    if not isinstance(first, dict):
        first = {"text": first} if first else {}
    return {slug: {**first, "again": again}}


def _value(answer: Any) -> Any:
    """The answer without how it was measured and without its second reading."""
    if not isinstance(answer, dict):
        return answer
    left = {part: told for part, told in answer.items() if part not in ("method", "again")}
    return left["text"] if list(left) == ["text"] else left
