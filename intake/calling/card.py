"""The card of one question: what was asked, what came of it, who said so, and why."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from typing import Any

from django.http import QueryDict
from django.utils.safestring import SafeString
from django.utils.translation import gettext_lazy as _

from intake import selectors
from intake.calling.answers import Reached, corrects, fields_for, new_answers, reached, slugs_for
from intake.calling.forms import CallForm
from intake.calling.show import Cause, OpenLine, causes_of, key_of, label_of, open_lines, sketch_of
from intake.desk_fields import Field
from intake.desk_words import Words
from intake.know import know_url
from intake.models import SheetVersion, Submission


@dataclass(frozen=True, slots=True)
class CallCard:
    """Everything the page of one question needs; ``sheet`` is the version that counts now."""

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
    def answer_slug(self) -> str:
        """The answer this call is about; empty where the check has none."""
        return key_of(self.finding)[1] if self.finding else self.data.get("answer", "")[:40]

    @property
    def is_named(self) -> bool:
        """Whether a question is named; where nothing is open, there is none to name."""
        return bool(self.check_id) or not self.open

    @property
    def overtaken(self) -> bool:
        """Whether the sheet has changed since the page was opened."""
        number = self.data.get("sheet_number")
        return number is not None and number != str(self.sheet.number)

    @property
    def seen_number(self) -> int | None:
        """The version the page was opened with, where it is another one."""
        number = self.data.get("sheet_number", "")
        is_number = number.isascii() and number.isdigit() and len(number) < 6
        return int(number) if self.overtaken and is_number else None

    @property
    def question(self) -> str:
        """The open question, as it is to be read out."""
        return str((self.finding or {}).get("question", ""))

    @property
    def is_stop(self) -> bool:
        """Whether only a manager may release over it."""
        return bool(self.finding) and (self.finding or {})["severity"] == "stop"

    @property
    def likely(self) -> list[Cause]:
        """What it most likely is, and what to listen for, for whoever asks."""
        return causes_of(self.finding)

    @property
    def sketch(self) -> SafeString:
        """Where on the boat that is; without any number of hers."""
        return sketch_of(self.finding, self.sheet)

    @property
    def how_url(self) -> str:
        """The page that tells how it is measured."""
        return know_url(self.answer_slug)

    @property
    def open(self) -> list[OpenLine]:
        """Everything that still holds the sheet, this question among it."""
        return open_lines(self.sheet, self.finding)

    @property
    def fields(self) -> tuple[Field, ...]:
        """Empty boxes for the answers: the numbers on the sheet are not shown beside them."""
        return fields_for(self.slugs, self.check_id, self._typed(), self.errors)

    @property
    def about(self) -> Words:
        """The short name of the answer that is asked about."""
        return label_of(self.answer_slug)

    @property
    def slugs(self) -> tuple[str, ...]:
        """The answers that can be typed here."""
        return slugs_for(self.finding)

    @property
    def hidden(self) -> frozenset[str]:
        """The answers whose numbers are not to be seen on this page."""
        return frozenset(self.slugs)

    @property
    def sentences(self) -> list[str]:
        """Errors that belong to no box of this page."""
        mine = tuple(one.key for one in self.fields)
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
        if not answers and not self.reached:
            needed = _("Type the new answer, or choose what else came of it.")
            self.form.add_error("outcome", needed)
        elif corrects(answers, self.before) and not self.data.get("cause"):
            needed = _("Choose the nearest cause; “not known” is one of them.")
            self.form.add_error("cause", needed)
        return not self.form.errors

    def entry(self) -> dict[str, Any]:
        """What `record_call` is told."""
        said = self.form.cleaned_data
        return {
            "sheet_number": self.sheet.number,
            "check_id": self.check_id,
            "answer": self.answer_slug,
            "outcome": said["outcome"],
            "said_by": said["said_by"],
            "cause": said["cause"],
            "contributing": self.form.contributing,
            "note": said["note"],
            "answers": self._answers(said["outcome"]),
            "contact": self.reached if said["outcome"] == "corrected" else None,
            "again_at": self.form.again_at,
        }

    def new_answers(self) -> dict[str, Any]:
        """What was typed into the boxes of this finding."""
        return new_answers(self.slugs, self.check_id, self.data, self.before)

    @property
    def reached(self) -> Reached:
        """How the customer is reached, where that was asked and typed."""
        return reached(self.slugs, self.data)

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

    @property
    def before(self) -> Mapping[str, Any]:
        """The answers as they stand."""
        answers: Mapping[str, Any] = self.sheet.body.get("answers", {})
        return answers

    def _typed(self) -> dict[str, Any]:
        """What stands in the boxes; the way of measuring is kept from the sheet, the value not."""
        typed: dict[str, Any] = self.data.dict()
        for slug in self.slugs:
            told = self.before.get(slug)
            if isinstance(told, dict) and told.get("method"):
                typed.setdefault(f"answers.{slug}.method", told["method"])
        return typed


def card_for(submission: Submission, data: QueryDict, *, bound: bool = True) -> CallCard:
    """The card for `check` and `answer` in data, against the sheet that counts now.

    ``bound`` False: what was typed is shown again, and nothing is said against it yet.
    """
    sheet = selectors.current_sheet(submission)
    finding = finding_of(sheet, data.get("check", ""), data.get("answer", ""))
    is_sent = "outcome" in data or "sheet_number" in data
    form = CallForm(data) if is_sent and bound else CallForm(initial=data.dict())
    return CallCard(submission, sheet, finding, data, form)


def finding_of(sheet: SheetVersion, check: str, answer: str) -> Mapping[str, Any] | None:
    """The finding of a version by its check and the answer it asks about."""
    fired = [row for row in sheet.outcome.get("findings", ()) if row["check"] == check]
    same = [row for row in fired if answer in row["answers"][:1]]
    return next(iter(same or fired), None)
