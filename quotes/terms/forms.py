"""What is typed to agree terms with a customer."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from django import forms

from quotes.terms.services import LONGEST_WHY

_WRONG_DAY = "Please give a day like 2027-01-31."
_HUNDRED = Decimal(100)


class PercentField(forms.RegexField):
    """Per cent as it is written, ``7.5`` or ``7,5 %``; a fraction inside, None where empty."""

    def __init__(self, **kwargs: Any) -> None:
        words = "Please write per cent, such as 7.5."
        super().__init__(
            r"^[0-9]{1,3}(?:[.,][0-9]{1,2})?\s*%?$",
            max_length=10,
            widget=forms.TextInput(attrs={"inputmode": "decimal", "autocomplete": "off"}),
            error_messages={"invalid": words, "required": words},
            **kwargs,
        )

    def clean(self, value: Any) -> Any:
        text = str(super().clean(value)).rstrip("% ").replace(",", ".")
        if not text:
            return None
        part = Decimal(text) / _HUNDRED
        if part > 1:
            raise forms.ValidationError("Please stay between 0 and 100 %.")
        return part


class TermsForm(forms.Form):
    """A discount, the deposit where it is another one than usual, from which day, and why."""

    discount = PercentField(
        label="Trade discount, %", help_text="Off goods and work, never freight."
    )
    deposit_part = PercentField(
        label="Deposit, % of the total",
        required=False,
        help_text="Leave it empty for the usual one; 0 for none.",
    )
    deposit_over = forms.DecimalField(
        label="A deposit is due over",
        required=False,
        min_value=0,
        max_digits=10,
        decimal_places=2,
        help_text="Leave it empty for the usual limit.",
        widget=forms.TextInput(attrs={"inputmode": "decimal", "autocomplete": "off"}),
    )
    from_day = forms.DateField(
        label="From",
        widget=forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
        input_formats=["%Y-%m-%d"],
        error_messages={"invalid": _WRONG_DAY, "required": _WRONG_DAY},
    )
    why = forms.CharField(
        label="Why",
        max_length=LONGEST_WHY,
        error_messages={"required": "Please write why, for whoever reads it next year."},
    )

    def __init__(self, *given: Any, **named: Any) -> None:
        super().__init__(*given, **{"auto_id": "terms-%s", **named})
