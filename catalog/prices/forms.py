"""What is typed to set prices."""

from __future__ import annotations

from typing import Any

from django import forms

from catalog.prices.dating.services import LONGEST_WHY

LARGEST = 1_000_000  # bytes of a table; twenty thousand rows are half of it
_WRONG_DAY = "Please give a day like 2027-01-31."
_WRONG_PRICE = "Please write a price such as 3.60, with at most four places."
_WHY = "Please write why, in a sentence for whoever reads it next year."


def _day(help_text: str = "") -> forms.DateField:
    return forms.DateField(
        label="From",
        help_text=help_text,
        widget=forms.DateInput(attrs={"type": "date"}, format="%Y-%m-%d"),
        input_formats=["%Y-%m-%d"],
        error_messages={"invalid": _WRONG_DAY, "required": _WRONG_DAY},
    )


def _why() -> forms.CharField:
    return forms.CharField(label="Why", max_length=LONGEST_WHY, error_messages={"required": _WHY})


class PriceForm(forms.Form):
    """One part, its price, from which day."""

    code = forms.CharField(
        label="Code of the part",
        max_length=40,
        widget=forms.TextInput(attrs={"autocomplete": "off", "spellcheck": "false"}),
        error_messages={"required": "Please give the code, as the catalogue writes it."},
    )
    price = forms.RegexField(
        r"^\s*[0-9]{1,8}(?:[.,][0-9]{1,4})?\s*$",
        label="Price",
        max_length=16,
        help_text="For the unit the part is sold by.",
        widget=forms.TextInput(attrs={"inputmode": "decimal", "autocomplete": "off"}),
        error_messages={"required": _WRONG_PRICE, "invalid": _WRONG_PRICE},
    )
    from_day = _day()
    why = _why()

    def __init__(self, *given: Any, **named: Any) -> None:
        super().__init__(*given, **{"auto_id": "one-%s", **named})


class TableForm(forms.Form):
    """A table of prices: pasted, or a file."""

    table = forms.CharField(
        label="Paste the table",
        required=False,
        max_length=LARGEST,
        help_text="A heading, then a row for each part: code, price, from_day. Leave from_day "
        "out where the day below is meant.",
        widget=forms.Textarea(attrs={"rows": 6, "spellcheck": "false"}),
    )
    file = forms.FileField(label="Or choose a CSV file", required=False)
    from_day = _day("For rows that give no day of their own.")
    why = _why()

    def __init__(self, *given: Any, **named: Any) -> None:
        super().__init__(*given, **{"auto_id": "table-%s", **named})

    def clean(self) -> dict[str, Any]:
        """The file's text stands in for a pasted one."""
        cleaned = super().clean() or {}
        file = cleaned.get("file")
        if file is not None:
            cleaned["table"] = self._text(file)
        if not (cleaned.get("table") or "").strip() and not self.errors:
            self.add_error("table", "Please paste a table, or choose a file.")
        return cleaned

    def _text(self, file: Any) -> str:
        if file.size > LARGEST:
            self.add_error("file", "This file is larger than 1 MB; please part it in two.")
            return ""
        try:
            return str(file.read().decode("utf-8-sig"))
        except UnicodeDecodeError:
            self.add_error("file", "This is no CSV in UTF-8; save it as that and try again.")
            return ""
