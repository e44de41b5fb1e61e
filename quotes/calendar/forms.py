"""What is typed to close days and to choose the week."""

from __future__ import annotations

from django import forms

from quotes.calendar.services import LONGEST_WHY
from quotes.domain.calendar import WEEKDAYS

_WRONG_DAY = "Please give a day like 2026-12-24."


def _day(label: str, help_text: str = "", *, required: bool = True) -> forms.DateField:
    return forms.DateField(
        label=label,
        help_text=help_text,
        required=required,
        widget=forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
        input_formats=["%Y-%m-%d"],
        error_messages={"invalid": _WRONG_DAY, "required": _WRONG_DAY},
    )


class CloseForm(forms.Form):
    """Days to close, from one to another."""

    first = _day("First closed day")
    last = _day("Last closed day", "Leave it empty for one day.", required=False)
    why = forms.CharField(
        label="Why",
        max_length=LONGEST_WHY,
        error_messages={"required": "Please say why, in a word or two: holiday, stock taking."},
    )


class WeekForm(forms.Form):
    """The weekdays that are worked."""

    days = forms.TypedMultipleChoiceField(
        label="The shop works on",
        coerce=int,
        choices=list(enumerate(WEEKDAYS)),
        widget=forms.CheckboxSelectMultiple,
        error_messages={"required": "Leave at least one day open, or no day could be promised."},
    )
