"""What customers may answer alone, on their own page, and what only a call can settle.

An answer that is missing may be given. A number that is doubted may be taken once more, without the
first in view: a long length as a second reading beside the first, any other afresh, and each once
only. Nobody is to go on typing until the numbers fit; what is still open after that is asked by a
person, and so is whatever has to be talked over. Which checks those are is common practice, no
source.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any, cast

from django.utils.text import capfirst
from django.utils.translation import gettext_lazy as _

from intake.desk_fields import can_be_typed, is_measured
from intake.desk_words import CHOICES, LABELS, PARTS
from intake.domain.questions import QUESTIONS
from intake.domain.reading import read_sheet
from intake.domain.sheet import SheetErrors
from intake.long_path import PLANS
from intake.models import SheetVersion
from intake.second_reading import SAID_BY, SINGLE_ROUTE, SecondReading
from intake.short_path import CANNOT, BoxPlan, Plan, Words, length_plan

FOR_A_PERSON = frozenset({
    "method-impossible", "whole-inch-heaping", "example-copycat", "repeated-number",
    "repeat-history", "prior-misfit", "duplicate", "yard-copy-paste", "impossible-combo",
    "stock-length",
    "twin-symmetry", "twin-rotation", "side-swapped", "diameter-downsize",
    "dia-changed-vs-history", "afloat-vs-strut", "fit-and-face-without-parts", "order-of-lengths",
    "barrel-difference", "implied-tail", "strut-moved", "torque-margin", "pieces-sum",
})  # fmt: skip
# The answers' own questions say it better.
_ITS_OWN_WORDS = frozenset({"missing-critical", "pass-through-fields"})
# Measured twice, both readings are kept; any other length is taken afresh.
TWICE = ("face_to_strut_aft", "old_length_face_to_thread")
# What is told in the same breath: where the tape began, what was tight as the gap was taken.
_TOLD_WITH: dict[str, str] = {
    "face_to_strut_aft": "forward_datum",
    "gap_now": "coupling_state",
    "old_length_face_to_thread": "pin_end",
    "tail_to_thread": "pin_end",
}
_AFRESH = "; measured afresh: "
_PLANS = {plan.slug: plan for plan in PLANS}
_ONLY_THROUGH = ("forward_datum",)  # its hint on the form is about one kind of drive
_MOST = 4  # questions of one finding


@dataclass(frozen=True, slots=True)
class Open:
    """One finding that waits for an answer. ``plans`` are what can be answered here; none: a call.

    ``afresh`` are the slugs among them whose first number must not be seen meanwhile.
    """

    finding: Mapping[str, Any]
    plans: tuple[Plan, ...] = ()
    afresh: tuple[str, ...] = ()

    @property
    def own_words(self) -> bool:
        """Whether the answer's own question says it all."""
        return self.finding["check"] in _ITS_OWN_WORDS


def open_findings(sheet: SheetVersion, again: Collection[str] = ()) -> tuple[Open, ...]:
    """What still holds the sheet, dearest first, with what the customer can answer of it.

    ``again``: slugs that were measured afresh here before. The second reading that has a form of
    its own is left out, and so is an answer that a dearer finding asks for already.
    """
    asked: set[str] = set()
    found = []
    for finding in sheet.outcome.get("findings") or ():
        if (
            finding["severity"] == "note"
            or not finding["question"]
            or _has_own_form(finding, sheet)
        ):
            continue
        one = _open(finding, sheet.body.get("answers") or {}, again)
        if one.plans:
            fresh = tuple(plan for plan in one.plans if plan.slug not in asked)
            asked |= {plan.slug for plan in fresh}
            if not fresh:
                continue
            slugs = {plan.slug for plan in fresh}
            afresh = tuple(slug for slug in one.afresh if slug in slugs)
            one = replace(one, plans=fresh, afresh=afresh)
        found.append(one)
    return tuple(found)


def _has_own_form(finding: Mapping[str, Any], sheet: SheetVersion) -> bool:
    if finding["check"] != SINGLE_ROUTE:
        return False
    first = (sheet.body.get("answers") or {}).get(finding["answers"][0])
    return not (isinstance(first, dict) and first.get("again"))


def _open(finding: Mapping[str, Any], answers: Mapping[str, Any], again: Collection[str]) -> Open:
    if finding["check"] in FOR_A_PERSON:
        return Open(finding)
    named = tuple(slug for slug in finding["answers"] if can_be_typed(slug))
    told_with = [_TOLD_WITH[slug] for slug in named if slug in _TOLD_WITH]
    wanted = (*named, *(told_with if finding["severity"] == "ask" else ()))
    missing = [slug for slug in dict.fromkeys(wanted) if _is_open(answers.get(slug))]
    doubted = _doubted(finding, answers, again)
    plans = [_afresh(slug) for slug in doubted]
    plans += [_missing(slug, answers.get(slug)) for slug in missing]
    return Open(finding, tuple(plans[:_MOST]), doubted)


def _doubted(
    finding: Mapping[str, Any], answers: Mapping[str, Any], again: Collection[str]
) -> tuple[str, ...]:
    """The measured answer to take once more: the first named, if it was not taken again yet."""
    if finding["severity"] != "ask" or not finding["answers"]:
        return ()
    slug = finding["answers"][0]
    told = answers.get(slug)
    if not is_measured(slug) or _is_open(told) or slug in again:
        return ()
    return () if isinstance(told, dict) and told.get("again") else (slug,)


def _is_open(told: Any) -> bool:
    """Not asked, not known, or not to be had: an answer would be news."""
    if isinstance(told, dict):
        value = told.get("state") or told.get("is") or told.get("kind") or told.get("tapered")
        return bool(told.get("state")) or value == "unknown"
    return told in (None, "", [], "unknown", ["unknown"])


def _missing(slug: str, told: Any) -> Plan:
    plan = _plan(slug)
    if isinstance(told, dict) and told.get("state"):
        return replace(plan, cannot="")  # said already
    if any(value == "unknown" for box in plan.boxes for value, _words in box.options):
        return replace(plan, cannot="")  # it is one of the choices
    label = CANNOT if any(box.kind == "length" for box in plan.boxes) else _("I can't tell")
    cannot = plan.cannot or _("We ring you about it.")
    return replace(plan, cannot=cannot, cannot_label=label)


def _afresh(slug: str) -> Plan:
    """Its boxes, to be read once more from the start."""
    plan = replace(_plan(slug), cannot="", slip="")
    if slug not in TWICE:
        return plan
    boxes = tuple(
        replace(box, name=box.name.replace(f".{slug}.", f".{slug}.again."))
        for box in plan.boxes
        if box.name.startswith(f"answers.{slug}.")
    )
    mark = BoxPlan(f"answers.{slug}.again.start_mark", _("Mark held at the start, if any"))
    return replace(plan, boxes=(*boxes, mark))


def _plan(slug: str) -> Plan:
    """The question as the form asks it; where it does not, with the desk's words."""
    if slug in _PLANS:
        plan = _PLANS[slug]
        own = tuple(_named(box) for box in plan.boxes if box.name.startswith(f"answers.{slug}"))
        slip = "" if slug in _ONLY_THROUGH else plan.slip
        return replace(plan, boxes=own, slip=slip)
    if is_measured(slug):
        return length_plan(slug, LABELS.get(slug) or _("Length"))
    return Plan(slug, QUESTIONS[slug].ask, tuple(_boxes(slug)))


def _boxes(slug: str) -> Iterator[BoxPlan]:
    if slug in CHOICES:
        label: Words = LABELS.get(slug) or slug
        yield BoxPlan(f"answers.{slug}", label, "radio", CHOICES[slug])
        return
    for part, word, options in PARTS[slug]:
        kind = "select" if options else "text"
        yield _named(BoxPlan(f"answers.{slug}.{part}", word, kind, options))


def _named(box: BoxPlan) -> BoxPlan:
    """The desk's short words begin small; a label of a page begins with a capital."""
    return replace(box, label=capfirst(cast("str", box.label)))


# --- Taking the answers -----------------------------------------------------------------


def with_answers(
    sheet: SheetVersion, told: Mapping[str, Any], again: Collection[str]
) -> SecondReading:
    """The sheet with the answers that were asked for; what nobody asked is left out.

    Raises SheetErrors by the answer's path, or "" where nothing was said or nothing is asked.
    """
    asked = {plan.slug for one in open_findings(sheet, again) for plan in one.plans}
    doubted = {slug for one in open_findings(sheet, again) for slug in one.afresh}
    mine = {slug: answer for slug, answer in told.items() if slug in asked}
    if not asked:
        raise SheetErrors({"": ["Thank you, but this is not asked any more."]})
    if not mine:
        raise SheetErrors({"": ["Please answer at least one of the questions."]})
    body = {**sheet.body, "answers": _merged(sheet.body.get("answers") or {}, mine)}
    afresh = sorted(doubted & set(mine))
    reason = "answered" + (_AFRESH + ", ".join(afresh) if afresh else "")
    return SecondReading(read_sheet(body, contact_needed=True), body, reason, SAID_BY)


def _merged(before: Mapping[str, Any], mine: Mapping[str, Any]) -> dict[str, Any]:
    """The new beside the old; a second reading joins the first and changes nothing of it."""
    answers = dict(before)
    for slug, answer in mine.items():
        first = before.get(slug)
        if isinstance(answer, dict) and "again" in answer and not _is_open(first):
            kept = dict(first) if isinstance(first, dict) else {"text": first}
            answers[slug] = {**kept, "again": answer["again"]}
        else:
            answers[slug] = answer
    return answers


def are_there(sheet: SheetVersion, told: Mapping[str, Any]) -> bool:
    """Whether a sheet of the customer's own holds these very answers: they were sent twice."""
    answers = sheet.body.get("answers") or {}
    merged = _merged(answers, told)
    return bool(told) and sheet.said_by == SAID_BY and merged == answers


def measured_afresh(reasons: Collection[str]) -> frozenset[str]:
    """The slugs that were measured afresh, from why there are the versions there are.

    >>> sorted(measured_afresh(["answered; measured afresh: gap_now, hub_length", "answered"]))
    ['gap_now', 'hub_length']
    """
    lists = (reason.partition(_AFRESH)[2] for reason in reasons)
    return frozenset(slug for each in lists for slug in each.split(", ") if slug)
