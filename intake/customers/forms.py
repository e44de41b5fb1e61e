"""What is typed on these pages, and whether it can be read."""

from __future__ import annotations

from django import forms
from django.utils.translation import gettext_lazy as _

_ROLES = [
    ("", _("not told")),
    ("owner", _("owner")),
    ("yard", _("yard")),
    ("crew", _("crew")),
    ("surveyor", _("surveyor")),
]


class CustomerForm(forms.Form):
    """A customer's contact, and why it is changed."""

    name = forms.CharField(label=_("Name"), max_length=300, required=False)
    phone = forms.CharField(label=_("Phone"), max_length=64, required=False)
    email = forms.EmailField(label=_("E-mail"), max_length=254, required=False)
    role = forms.ChoiceField(label=_("Role"), choices=_ROLES, required=False)
    why = forms.CharField(label=_("Why"), max_length=400)
    revision = forms.IntegerField(widget=forms.HiddenInput)


class WhyForm(forms.Form):
    """A reason, in a few words."""

    why = forms.CharField(label=_("Why"), max_length=400)


class MergeForm(WhyForm):
    """Two records as they were looked at, and which of them is kept."""

    keep = forms.IntegerField(widget=forms.HiddenInput)
    one = forms.IntegerField(widget=forms.HiddenInput)
    other = forms.IntegerField(widget=forms.HiddenInput)


class EraseForm(WhyForm):
    """Erasing is typed out: a click is not enough for what cannot be undone."""

    typed = forms.CharField(label=_("Type ERASE"), max_length=20)

    def clean_typed(self) -> str:
        """Exactly the word, in capitals."""
        typed = str(self.cleaned_data["typed"]).strip()
        if typed != "ERASE":
            raise forms.ValidationError(_("Please type the word ERASE, in capitals."))
        return typed
