"""What is typed about ordering: can it be read?"""

from __future__ import annotations

from typing import Any

from django import forms

from catalog.models import Part
from catalog.pieces.selectors import part_of
from staff.trail.services import LONGEST_WHY

_MOST = 9999


class PointForm(forms.Form):
    """At how many free a part is to be ordered, and up to how many."""

    part = forms.CharField(label="Part", help_text="Its code, such as BH-1000.", max_length=40)
    at = forms.IntegerField(
        label="Order at",
        help_text="So many free, or fewer. Empty: it is ordered by hand alone.",
        min_value=0,
        max_value=_MOST,
        required=False,
    )
    to = forms.IntegerField(
        label="Up to", min_value=1, max_value=_MOST, required=False, help_text="More than that."
    )
    why = forms.CharField(label="Why", max_length=LONGEST_WHY)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        kwargs.setdefault("label_suffix", "")
        super().__init__(*args, **kwargs)

    def clean_part(self) -> Part:
        """The part of that code, however it is capitalised."""
        part = part_of(self.cleaned_data["part"].strip().upper())
        if part is None or part.on_hand is None:
            raise forms.ValidationError("No part of this code is counted. Look in the catalogue.")
        return part

    def clean(self) -> dict[str, Any]:
        """Both numbers or none."""
        cleaned = super().clean() or {}
        at, to = cleaned.get("at"), cleaned.get("to")
        if "to" not in self.errors and at is not None and (to is None or to <= at):
            self.add_error("to", "Order up to more than the number it is ordered at.")
        return cleaned

    @property
    def faults(self) -> list[dict[str, str]]:
        """For ``_errors.html``."""
        return [
            {
                "id": self[name].auto_id if name in self.fields else "",
                "label": str(self[name].label) if name in self.fields else "",
                "message": str(message),
            }
            for name, said in self.errors.items()
            for message in said
        ]
