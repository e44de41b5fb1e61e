"""What the customer's page asks: the form of what can be answered there, the list for a call."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property, lru_cache
from typing import Any

from django.http import QueryDict
from django.utils.safestring import SafeString, mark_safe
from django.utils.translation import gettext as _

from intake.domain.drawing import ASKED, drive_line
from intake.domain.svg import to_svg
from intake.forms import body_from_post
from intake.likely import ShownFinding
from intake.measure_page import Asked
from intake.models import SheetVersion, Submission
from intake.own_answers import Open, open_findings
from intake.said import drawing_words, language_now, said
from intake.second_reading import asked_again
from intake.selectors import current_sheet, measured_afresh
from intake.short_path import Plan

Errors = Mapping[str, Sequence[str]]


class AskedHere(Asked):
    """One question as this page shows it: with a small drawing of its own."""

    @property
    def figure(self) -> SafeString:
        """The drive line with this dimension lit, and no number in it."""
        return _figure(self.plan.slug, language_now()) if self.plan.drawn else SafeString("")


@lru_cache(maxsize=256)
def _figure(slug: str, language: str) -> SafeString:
    if slug not in ASKED:
        return SafeString("")
    layout = {"layout": "v_pass_through"} if slug == "gearbox_through" else {}
    drawing = drive_line(layout, lit=slug, words=drawing_words())
    return mark_safe(to_svg(drawing, ident=f"ask-{slug}"))  # noqa: S308


@dataclass(frozen=True)
class AskedOf:
    """One finding with its questions."""

    shown: ShownFinding
    own_words: bool
    once_more: bool
    questions: Sequence[Asked]


@dataclass(frozen=True)
class Asks:
    """Everything that is still open on a sheet."""

    sheet: SheetVersion
    again: frozenset[str] = frozenset()
    typed: QueryDict = field(default_factory=lambda: QueryDict(""))
    errors: Errors = field(default_factory=dict)

    @cached_property
    def found(self) -> tuple[Open, ...]:
        """Each open finding, dearest first."""
        return open_findings(self.sheet, self.again)

    @cached_property
    def here(self) -> list[AskedOf]:
        """What can be answered on this page."""
        number, asked = 0, []
        for one in self.found:
            questions: list[Asked] = []
            for plan in one.plans:
                number += 1
                questions.append(self._asked(plan, number))
            if questions:
                shown = ShownFinding(one.finding)
                asked.append(AskedOf(shown, one.own_words, bool(one.afresh), questions))
        return asked

    def _asked(self, plan: Plan, number: int) -> Asked:
        own = {path: lines for path, lines in self.errors.items() if _is_of(path, plan)}
        sentences = tuple(dict.fromkeys(said(line) for lines in own.values() for line in lines))
        return AskedHere(plan, number, self.typed, sentences, frozenset(own))

    @property
    def by_call(self) -> list[Mapping[str, Any]]:
        """What only a person can settle: each question once."""
        questions = {one.finding["question"]: one.finding for one in self.found if not one.plans}
        return list(questions.values())

    @property
    def hidden(self) -> frozenset[str]:
        """Answers to be taken once more, blind: their first number is shown nowhere."""
        return frozenset(slug for one in self.found for slug in one.afresh)

    @property
    def number(self) -> int:
        """The version of the sheet these are about."""
        return self.sheet.number

    @property
    def unit(self) -> str:
        """The tape's unit, for numbers written without one."""
        return str(self.sheet.body.get("tape_unit") or "")

    @property
    def summary(self) -> list[dict[str, Any]]:
        """One line for each error, with the box it is about; what fits no box is said as well."""
        lines = [
            {"id": box.id, "label": box.plan.label, "message": " ".join(asked.errors)}
            for one in self.here
            for asked in one.questions
            for box in asked.boxes
            if box.wrong
        ]
        shown = [asked.plan for one in self.here for asked in one.questions]
        lines += [
            {"id": "", "label": "", "message": " ".join(map(said, lines))}
            for path, lines in self.errors.items()
            if not any(_is_of(path, plan) for plan in shown)
        ]
        return lines


def _is_of(path: str, plan: Plan) -> bool:
    return path == plan.path or path.startswith(f"{plan.path}.")


def answers_from(post: QueryDict) -> tuple[dict[str, Any], dict[str, list[str]]]:
    """What was typed, in the API's shape, and what contradicts itself."""
    answers = body_from_post(post)["answers"]
    both = [slug for slug in answers if post.get(f"answers.{slug}.state") and _says(post, slug)]
    sentence = _("There is an answer here and a tick that you can't give one. Keep one of them.")
    return answers, {f"answers.{slug}": [sentence] for slug in both}


def _says(post: QueryDict, slug: str) -> bool:
    """Whether something was answered: a choice, a number, a part."""
    name = f"answers.{slug}"
    how = (f"{name}.state", f"{name}.method")
    boxes = [box for box in post if box == name or box.startswith(f"{name}.")]
    return any(str(post.get(box, "")).strip() for box in boxes if box not in how)


def by_boxes(errors: Mapping[str, list[str]]) -> dict[str, list[str]]:
    """The reader's errors, without what the customer cannot mend here under a name of programs."""
    return {path if path.startswith("answers.") else "": lines for path, lines in errors.items()}


def can_answer(submission: Submission) -> bool:
    """Whether something is open that the customer can answer alone."""
    sheet = current_sheet(submission)
    if asked_again(sheet):
        return True
    return any(one.plans for one in open_findings(sheet, measured_afresh(submission)))
