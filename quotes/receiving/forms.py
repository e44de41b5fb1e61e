"""What is typed when a customer's own part comes in."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils import timezone

from quotes.receiving.models import WHATS
from quotes.receiving.services import Arrival


class ArrivalForm(forms.Form):
    """What came, from whom, on which day, in what state, and where it lies."""

    what = forms.ChoiceField(label="What has come", choices=WHATS, required=False)
    day = forms.DateField(
        label="Day it arrived",
        widget=forms.DateInput(format="%Y-%m-%d", attrs={"type": "date"}),
        error_messages={"required": "Give the day it arrived.", "invalid": "Give a day."},
    )
    sender = forms.CharField(label="From whom", max_length=200, required=False)
    condition = forms.CharField(
        label="State it is in",
        max_length=1000,
        required=False,
        help_text="rust, dents, set screws there or not; photos go to the request's own",
        widget=forms.Textarea(attrs={"rows": 2}),
    )
    place = forms.CharField(label="Where it lies", max_length=80, required=False)

    def __init__(self, data: Any = None, **told: Any) -> None:
        super().__init__(data, initial={"day": timezone.localdate()}, **told)

    @property
    def arrival(self) -> Arrival:
        """As the service takes it."""
        said = self.cleaned_data
        return Arrival(said["day"], said["sender"], said["condition"], said["place"])

    @property
    def wrong(self) -> list[dict[str, str]]:
        """What is to be put right, each with its box."""
        return [
            {
                "id": box.id_for_label,
                "label": str(box.label),
                "message": " ".join(map(str, box.errors)),
            }
            for box in self
            if box.errors
        ]
