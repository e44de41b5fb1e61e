"""The card of one question: what was asked, what came of it, who said so, and why."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from django import forms
from django.http import QueryDict
from django.utils.translation import gettext_lazy as _

from intake import selectors
from intake.calling.answers import corrects, fields_for, new_answers, slugs_for
from intake.desk_fields import Field
from intake.desk_show import label_for
from intake.desk_words import Words
from intake.domain.causes import CAUSES, family
from intake.likely import LikelyCause, likely_causes
from intake.models import OUTCOMES, SheetVersion, Submission


def grouped_causes() -> list[tuple[str, list[tuple[str, str]]]]:
    """The causes under their families, for a select."""
    groups: dict[str, list[tuple[str, str]]] = {}
    for code, label in CAUSES.items():
        groups.setdefault(family(code), []).append((code, label))
    return list(groups.items())


def _cause_choices() -> list[Any]:
    return [("", "—"), *grouped_causes()]


class CallForm(forms.Form):
    """What is written down of a call, besides the new answers."""

    outcome = forms.ChoiceField(
        label=_("What came of it"), choices=OUTCOMES, widget=forms.RadioSelect
    )
    said_by = forms.CharField(label=_("Who said so"), max_length=200, required=False)
    cause = forms.ChoiceField(
        label=_("Why the number was wrong"), choices=_cause_choices, required=False
    )
    also_1 = forms.ChoiceField(
        label=_("Also played a part"), choices=_cause_choices, required=False
    )
    also_2 = forms.ChoiceField(label=_("And"), choices=_cause_choices, required=False)
    note = forms.CharField(
        label=_("Note"),
        max_length=2000,
        required=False,
        widget=forms.Textarea(attrs={"rows": 3}),
    )

    def clean(self) -> dict[str, Any]:
        """Somebody said it, unless nobody was reached."""
        said: dict[str, Any] = super().clean() or {}
        outcome = said.get("outcome")
        if outcome and outcome != "not_reached" and not said.get("said_by"):
            self.add_error("said_by", _("Write the name of the person who told you."))
        return said

    @property
    def contributing(self) -> tuple[str, ...]:
        """Up to two further causes, none of them the first one."""
        also = (self.cleaned_data[name] for name in ("also_1", "also_2"))
        primary = self.cleaned_data["cause"]
        return tuple(dict.fromkeys(code for code in also if code and code != primary))


@dataclass(frozen=True, slots=True)
class CallCard:
    """Everything the page of one question needs."""

    submission: Submission
    sheet: SheetVersion
    finding: Mapping[str, Any] | None
    data: QueryDict
    form: CallForm
    errors: Mapping[str, list[str]] = field(default_factory=dict)

    @property
    def check_id(self) -> str:
        """The check this call is about."""
        return self.data.get("check", "")[:40]

    @property
    def overtaken(self) -> bool:
        """Whether the sheet has changed since the page was opened."""
        number = self.data.get("sheet_number")
        return number is not None and number != str(self.sheet.number)

    @property
    def question(self) -> str:
        """The open question, as it is to be read out."""
        return str((self.finding or {}).get("question", ""))

    @property
    def likely(self) -> list[LikelyCause]:
        """What it most likely is, for whoever asks."""
        return likely_causes(self.finding or {})

    @property
    def fields(self) -> tuple[Field, ...]:
        """Empty boxes for the answers: the numbers on the sheet are not shown beside them."""
        return fields_for(self.slugs, self.check_id, self._typed(), self.errors)

    @property
    def about(self) -> Words:
        """The short name of the answer that is asked about."""
        asked = (self.finding or {}).get("answers", ())
        return label_for(asked[0]) if asked else ""

    @property
    def slugs(self) -> tuple[str, ...]:
        """The answers that can be typed here."""
        return slugs_for(self.finding)

    @property
    def sentences(self) -> list[str]:
        """Errors that belong to no box of this page."""
        mine = tuple(f"answers.{slug}" for slug in self.slugs)
        return [
            sentence
            for key, said in self.errors.items()
            if not any(key == name or key.startswith(name + ".") for name in mine)
            for sentence in said
        ]

    def is_valid(self) -> bool:
        """Whether it can be written down; a correction needs a new answer and a cause."""
        if self.finding is None:
            return False
        good = self.form.is_valid()
        if self.data.get("outcome") != "corrected":
            return good
        answers = self.new_answers()
        if not answers:
            needed = _("Type the new answer, or choose what else came of it.")
            self.form.add_error("outcome", needed)
        elif corrects(answers, self._before()) and not self.data.get("cause"):
            needed = _("Choose the nearest cause; “not known” is one of them.")
            self.form.add_error("cause", needed)
        return not self.form.errors

    def answer(self) -> dict[str, Any]:
        """What `record_call` is told."""
        said = self.form.cleaned_data
        return {
            "sheet_number": self.sheet.number,
            "check_id": self.check_id,
            "outcome": said["outcome"],
            "said_by": said["said_by"],
            "cause": said["cause"],
            "contributing": self.form.contributing,
            "note": said["note"],
            "answers": self._answers(said["outcome"]),
        }

    def new_answers(self) -> dict[str, Any]:
        """What was typed into the boxes of this finding."""
        return new_answers(self.slugs, self.check_id, self.data, self._before())

    def with_errors(self, errors: Mapping[str, list[str]]) -> CallCard:
        """The same card with what was wrong by the boxes and by the fields of the form."""
        for key, said in errors.items():
            name = "also_1" if key == "contributing" else key
            if name in self.form.fields:
                self.form.add_error(name, list(said))
        left = {
            key: said
            for key, said in errors.items()
            if key not in {*self.form.fields, "contributing"}
        }
        return replace(self, errors=left)

    def _answers(self, outcome: str) -> dict[str, Any] | None:
        if outcome == "corrected":
            return self.new_answers()
        if outcome == "cannot_measure":
            cannot = {"state": "cannot_measure"}
            ticked = {slug: new for slug, new in self.new_answers().items() if new == cannot}
            return ticked or dict.fromkeys(self.slugs[:1], cannot)
        return None

    def _before(self) -> Mapping[str, Any]:
        """The answers as they stand."""
        answers: Mapping[str, Any] = self.sheet.body.get("answers", {})
        return answers

    def _typed(self) -> dict[str, Any]:
        """What stands in the boxes; the way of measuring is kept from the sheet, the value not."""
        typed: dict[str, Any] = self.data.dict()
        for slug in self.slugs:
            told = self._before().get(slug)
            if isinstance(told, dict) and told.get("method"):
                typed.setdefault(f"answers.{slug}.method", told["method"])
        return typed


def card_for(submission: Submission, data: QueryDict) -> CallCard:
    """The card for `check` in data, against the sheet that counts now."""
    sheet = selectors.current_sheet(submission)
    check, answer = data.get("check", ""), data.get("answer", "")
    fired = [row for row in sheet.outcome.get("findings", ()) if row["check"] == check]
    same = [row for row in fired if answer in row["answers"][:1]]
    finding = next(iter(same or fired), None)
    form = CallForm(data) if "outcome" in data or "sheet_number" in data else CallForm()
    return CallCard(submission, sheet, finding, data, form)
