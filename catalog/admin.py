"""Keeping single parts. Sizes are typed as people write them, with their unit."""

from __future__ import annotations

from typing import Any, cast

from django import forms
from django.contrib import admin
from django.contrib.auth.models import User
from django.db import models
from django.http import HttpRequest
from django.template.loader import render_to_string
from django.utils.translation import gettext_lazy as _

from catalog import services
from catalog.domain.lengths import Length
from catalog.domain.tape import LengthError, read_length
from catalog.models import SIZES, WORDS, Part
from catalog.pieces.counting.services import kept_by_piece
from catalog.selectors import part_today
from staff.trail.selectors import changes_of
from staff.trail.services import LONGEST_WHY

_UNSAID = "in the admin"
_SHOWN = 50


class SizeField(forms.CharField):
    """A size as text outside and as nanometres inside."""

    def __init__(self, **kwargs: Any) -> None:
        super().__init__(max_length=40, required=False, **kwargs)

    def prepare_value(self, value: Any) -> Any:
        if not isinstance(value, int):
            return value
        size = Length(value)
        exact = f"{size.mm_text.rstrip('0').rstrip('.')} mm"
        return exact if size.inch_text.startswith("≈") else size.show("in")

    def clean(self, value: str) -> int | None:
        text = super().clean(value)
        if not text:
            return None
        try:
            read = read_length(text, None)
        except LengthError as error:
            raise forms.ValidationError(error.message) from error
        if read.extra_u_nm:
            raise forms.ValidationError("Write one exact size, such as 7/8 in or 25 mm.")
        return read.length.nm


class PartForm(forms.ModelForm):  # type: ignore[type-arg]
    """A part, and why it is changed."""

    why = forms.CharField(
        label=_("why it is changed"), max_length=LONGEST_WHY, required=False, initial=""
    )

    def clean_on_hand(self) -> int | None:
        """Bars that are listed one by one are counted by their list."""
        counted: int | None = self.cleaned_data["on_hand"]
        if counted != self.instance.on_hand and self.instance.pk and kept_by_piece(self.instance):
            raise forms.ValidationError(
                f"{self.instance.code} is kept piece by piece: correct its pieces on their page."
            )
        return counted


@admin.register(Part)
class PartAdmin(admin.ModelAdmin):  # type: ignore[type-arg]
    form = PartForm
    fields = ("kind", *WORDS, *(f"{size}_nm" for size in SIZES), "why", "trail")
    readonly_fields = ("trail",)
    list_display = ("code", "kind", "description", "price", "per", "on_hand")
    list_filter = ("kind", "system")
    search_fields = ("code", "description", "alloy")
    show_full_result_count = False
    actions = None

    def get_object(
        self, request: HttpRequest, object_id: str, from_field: str | None = None
    ) -> Part | None:
        """With the price in force: what is not touched in the form is not changed by it."""
        found = super().get_object(request, object_id, from_field)
        return part_today(found) if found is not None else None

    def formfield_for_dbfield(
        self, db_field: models.Field[Any, Any], request: HttpRequest, **kwargs: Any
    ) -> forms.Field | None:
        if db_field.name.endswith("_nm"):
            return SizeField(label=str(db_field.verbose_name))
        return super().formfield_for_dbfield(db_field, request, **kwargs)

    def save_model(self, request: HttpRequest, obj: Part, form: Any, change: bool) -> None:
        services.save_part(part=obj, by=_who(request), why=form.cleaned_data["why"] or _UNSAID)

    def delete_model(self, request: HttpRequest, obj: Part) -> None:
        services.remove_part(part=obj, by=_who(request), why=_UNSAID)

    @admin.display(description=_("what was changed"))
    def trail(self, part: Part) -> str:
        """Who changed what, when and why, newest first."""
        changes = changes_of(services.TRAIL, part.code)[:_SHOWN] if part.code else []
        return render_to_string("staff/_trail.html", {"changes": changes})


def _who(request: HttpRequest) -> User:
    return cast(User, request.user)
