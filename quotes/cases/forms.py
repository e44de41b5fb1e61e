"""What is typed on the page of a case: one small form for each step."""

from __future__ import annotations

import secrets
from typing import Any, cast

from django import forms

from catalog.domain.lengths import Length
from catalog.domain.tape import LengthError, Unit, read_length
from intake.calling.forms import grouped_causes
from quotes.cases.models import Case
from quotes.cases.services import Agreement, Coded, Cost
from quotes.domain import case_words as words
from quotes.domain.case_costs import DESK_RATE, read_cost
from quotes.domain.remedy import PARTS

_NOTHING = ("", "—")
_ROWS = forms.Textarea(attrs={"rows": 2})


class TapeField(forms.CharField):
    """A length in the tape's language, or nothing. ``unit``: of numbers written without one."""

    unit: Unit | None = "in"

    def __init__(self, **told: Any) -> None:
        attrs = {"autocomplete": "off", "autocapitalize": "off", "spellcheck": "false"}
        super().__init__(max_length=40, required=False, widget=forms.TextInput(attrs=attrs), **told)

    def clean(self, value: Any) -> Length | None:
        """The length; what cannot be read is said in the reader's own sentence."""
        text = super().clean(value)
        if not text:
            return None
        try:
            return read_length(text, self.unit).length
        except LengthError as error:
            raise forms.ValidationError(error.message) from None


class StepForm(forms.Form):
    """A step of one case. Lengths are read in the unit of the customer's tape."""

    def __init__(self, case: Case, data: Any = None, **told: Any) -> None:
        super().__init__(data, auto_id=f"{self.step}-%s", **told)
        unit = case.quote.sheet.body.get("tape_unit")
        for field in self.fields.values():
            if isinstance(field, TapeField):
                field.unit = cast("Unit | None", unit if unit in ("in", "mm") else "in")

    step = ""

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

    def refuse(self, errors: dict[str, str]) -> str:
        """Put the service's sentences to their boxes; what belongs to no box is returned."""
        for box in set(errors) & set(self.fields):
            self.add_error(box, errors[box])
        return " ".join(said for box, said in errors.items() if box not in self.fields)


class SizeForm(StepForm):
    """What does not fit, and by how much."""

    step = "size"
    part = forms.ChoiceField(label="What does not fit", choices=list(PARTS.items()))
    gap = TapeField(label="Gap as fitted", help_text="strut to propeller, shaft hard forward")
    excess = TapeField(label="Or told as too long or too short by", help_text="if nobody has a gap")
    way = forms.ChoiceField(
        label="Which way", choices=[("long", "too long"), ("short", "too short")], required=False
    )

    @property
    def signed(self) -> Length | None:
        """Above zero: too long."""
        excess = self.cleaned_data["excess"]
        if excess is None:
            return None
        return cast("Length", -excess if self.cleaned_data["way"] == "short" else excess)


class CauseForm(StepForm):
    """Why it happened, and what speaks for it."""

    step = "cause"
    cause = forms.ChoiceField(label="Primary cause", choices=lambda: _causes(), required=False)
    also_1 = forms.ChoiceField(
        label="Also played a part", choices=lambda: _causes(), required=False
    )
    also_2 = forms.ChoiceField(label="And", choices=lambda: _causes(), required=False)
    evidence = forms.CharField(
        label="What speaks for it", max_length=1000, required=False, widget=_ROWS
    )
    found_by = forms.CharField(label="Who found it", max_length=200, required=False)
    found = forms.ChoiceField(
        label="When it was found", choices=[_NOTHING, *words.FOUND.items()], required=False
    )
    born = forms.ChoiceField(
        label="Where the mistake was made",
        choices=[_NOTHING, *words.BORN.items()],
        required=False,
        help_text="the cost is booked there, to the cause, never to a person",
    )

    @property
    def coded(self) -> Coded:
        """As the service takes it."""
        said = self.cleaned_data
        also = [code for code in (said["also_1"], said["also_2"]) if code]
        return Coded(
            cause=said["cause"],
            contributing=also,
            evidence=said["evidence"],
            found_by=said["found_by"],
            found=said["found"],
            born=said["born"],
        )


def _causes() -> list[Any]:
    return [_NOTHING, *grouped_causes()]


class AgreeForm(StepForm):
    """What is done about it, and who pays."""

    step = "agree"
    kind = forms.ChoiceField(
        label="What is done", choices=[_NOTHING, *list(words.KINDS.items())[1:]], required=False
    )
    by_length = TapeField(label="By how much", help_text="of shortening, or of the spacer")
    comes_back = forms.BooleanField(
        label="The shaft comes back to us for it", required=False, initial=True
    )
    payer = forms.ChoiceField(
        label="Who pays", choices=[_NOTHING, *words.PAYERS.items()], required=False
    )
    why = forms.CharField(label="Why", max_length=400, required=False, widget=_ROWS)

    @property
    def agreement(self) -> Agreement:
        """As the service takes it."""
        said = self.cleaned_data
        return Agreement(
            kind=said["kind"],
            payer=said["payer"],
            why=said["why"],
            by_length=said["by_length"],
            comes_back=said["comes_back"] and said["kind"] == "shorten",
        )


class CostForm(StepForm):
    """One line of what it costs."""

    step = "cost"
    cost_kind = forms.ChoiceField(
        label="Kind of cost", choices=[_NOTHING, *words.COSTS.items()], required=False
    )
    said_cost = forms.CharField(label="For what", max_length=200, required=False)
    amount = forms.CharField(
        label="Amount", max_length=12, required=False, help_text="with a minus to take a line back"
    )
    minutes = forms.IntegerField(
        label="Or minutes at the desk",
        min_value=0,
        max_value=6000,
        required=False,
        help_text=f"at {DESK_RATE} an hour (invented)",
    )
    once = forms.CharField(widget=forms.HiddenInput, max_length=40, required=False)

    def clean_amount(self) -> Any:
        """The amount, exact."""
        text = self.cleaned_data["amount"]
        if not text:
            return None
        amount = read_cost(text)
        if amount is None:
            raise forms.ValidationError("Write an amount like 41 or 12.50.")
        return amount

    @property
    def cost(self) -> Cost:
        """As the service takes it."""
        said = self.cleaned_data
        return Cost(said["cost_kind"], said["said_cost"], said["amount"], said["minutes"])


class WordsForm(StepForm):
    """A few words, for a step that needs no more."""

    step = "words"
    said = forms.CharField(label="What was done and measured", max_length=1000, required=False)
    why_back = forms.CharField(label="Why it goes back", max_length=400, required=False)
    why_without = forms.CharField(label="Why nothing is done", max_length=400, required=False)
    note = forms.CharField(label="Note", max_length=1000, required=False)


class RemakeForm(StepForm):
    """Accepting a remake for the customer: who agreed to it."""

    step = "remake"
    why_new = forms.CharField(
        label="What is different this time", max_length=400, required=False, widget=_ROWS
    )


def new_once() -> str:
    """What a form of costs carries, so that it is booked once."""
    return secrets.token_hex(12)
