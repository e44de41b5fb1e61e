"""What is written down of a call, besides the new answers."""

from __future__ import annotations

from datetime import datetime
from typing import Any

from django import forms
from django.utils import timezone
from django.utils.translation import gettext_lazy as _

from intake.domain.again import AT, again_at, again_choices
from intake.domain.causes import CAUSES, family
from intake.models import OUTCOMES

_DAY = forms.DateInput(format="%Y-%m-%d", attrs={"type": "date"})
_TIME = forms.TimeInput(format="%H:%M", attrs={"type": "time"})
SPEECHLESS = ("not_reached", "overridden")  # nobody said anything


def grouped_causes() -> list[tuple[str, list[tuple[str, str]]]]:
    """The causes under their families, for a select."""
    groups: dict[str, list[tuple[str, str]]] = {}
    for code, label in CAUSES.items():
        groups.setdefault(family(code), []).append((code, label))
    return list(groups.items())


def _cause_choices() -> list[Any]:
    return [("", "—"), *grouped_causes()]


def _again_choices() -> list[tuple[str, str]]:
    return again_choices(timezone.localtime())


class CallForm(forms.Form):
    """One call: what came of it, who said so, why, and when to try again."""

    outcome = forms.ChoiceField(
        label=_("What came of it"),
        choices=OUTCOMES,
        widget=forms.RadioSelect,
        error_messages={"required": _("Choose what came of the call.")},
    )
    said_by = forms.CharField(
        label=_("Who said so"),
        max_length=200,
        required=False,
        widget=forms.TextInput(attrs={"list": "people-known", "autocomplete": "off"}),
    )
    cause = forms.ChoiceField(
        label=_("Why the number was wrong"), choices=_cause_choices, required=False
    )
    also_1 = forms.ChoiceField(
        label=_("Also played a part"), choices=_cause_choices, required=False
    )
    also_2 = forms.ChoiceField(label=_("And"), choices=_cause_choices, required=False)
    note = forms.CharField(
        label=_("In their own words, or why it may go ahead"),
        max_length=2000,
        required=False,
        widget=forms.Textarea(attrs={"rows": 3}),
    )
    again = forms.ChoiceField(
        label=_("Try again"), choices=_again_choices, required=False, widget=forms.RadioSelect
    )
    again_day = forms.DateField(label=_("Day"), required=False, widget=_DAY)
    again_time = forms.TimeField(label=_("Time"), required=False, widget=_TIME)

    def clean(self) -> dict[str, Any]:
        """Somebody said it, unless nobody was reached or nobody was asked."""
        said: dict[str, Any] = super().clean() or {}
        outcome = said.get("outcome")
        if outcome and outcome not in SPEECHLESS and not said.get("said_by"):
            self.add_error("said_by", _("Write the name of the person who told you."))
        wants_moment = outcome == "not_reached" and said.get("again") == AT
        if wants_moment and not (said.get("again_day") or said.get("again_time")):
            self.add_error("again", _("Write the day or the time, or choose another."))
        return said

    @property
    def contributing(self) -> tuple[str, ...]:
        """Up to two further causes, none of them the first one."""
        also = (self.cleaned_data[name] for name in ("also_1", "also_2"))
        primary = self.cleaned_data["cause"]
        return tuple(dict.fromkeys(code for code in also if code and code != primary))

    @property
    def again_at(self) -> datetime | None:
        """When to try again, where nobody was reached."""
        said = self.cleaned_data
        if said["outcome"] != "not_reached":
            return None
        now = timezone.localtime()
        return again_at(said["again"], now, said["again_day"], said["again_time"])

    @property
    def plain(self) -> list[forms.BoundField]:
        """The fields with something wrong, for the summary."""
        return [field for field in self if field.errors]
