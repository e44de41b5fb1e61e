"""What is typed when an audit call is over."""

from __future__ import annotations

from typing import Any, cast

from django import forms

from intake.domain.causes import CAUSES
from intake.models import SheetVersion
from quotes.insight.audit.models import OUTCOMES
from quotes.insight.pages.base import cause_label, question_label


class AuditForm(forms.Form):
    """The outcome; of a mistake its cause and the question it was made in."""

    outcome = forms.ChoiceField(
        label="What came of it",
        choices=OUTCOMES,
        widget=forms.RadioSelect,
        error_messages={"required": "Say what came of the call."},
    )
    cause = forms.ChoiceField(label="Why it was wrong", required=False)
    answer = forms.ChoiceField(label="In which answer", required=False)
    note = forms.CharField(
        label="In your own words",
        required=False,
        max_length=2000,
        widget=forms.Textarea(attrs={"rows": 3}),
    )

    def __init__(self, sheet: SheetVersion, *args: Any, **more: Any) -> None:
        super().__init__(*args, **more)
        told = sorted(sheet.body.get("answers") or {}, key=question_label)
        causes = [(code, cause_label(code)) for code in CAUSES]
        self._choices("cause", [("", "nothing was wrong"), *causes])
        self._choices("answer", [("", "—"), *((slug, question_label(slug)) for slug in told)])

    def _choices(self, name: str, choices: list[tuple[str, str]]) -> None:
        cast("forms.ChoiceField", self.fields[name]).choices = choices

    def refuse(self, errors: dict[str, str]) -> None:
        """Errors of the service, each by its field."""
        for name, sentence in errors.items():
            self.add_error(name, sentence)
