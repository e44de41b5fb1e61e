"""What is typed about accounts: can it be read, and who is asking?"""

from __future__ import annotations

from typing import Any, cast

from django import forms
from django.contrib.auth import password_validation
from django.contrib.auth.models import User
from django.http import HttpRequest
from django.utils.translation import gettext_lazy as _

from staff.accounts.services import GROUPS
from staff.doors import proof

LONGEST_WHY = 400
_GROUPS = [(name, name) for name in GROUPS]


def _password(label: Any, autocomplete: str, **more: Any) -> forms.CharField:
    box = forms.PasswordInput(attrs={"autocomplete": autocomplete})
    return forms.CharField(label=label, max_length=200, strip=False, widget=box, **more)


class ProvenForm(forms.Form):
    """A form that is heard only with the password of who sends it."""

    proof = _password(_("Your own password"), "current-password")

    def __init__(self, request: HttpRequest, *args: Any, **kwargs: Any) -> None:
        self.request = request
        kwargs.setdefault("label_suffix", "")
        super().__init__(*args, **kwargs)

    def clean(self) -> dict[str, Any]:
        """The password is looked at last: a fault in another box costs no try."""
        cleaned = super().clean() or {}
        if not self.errors and not proof.knows_password(
            self.request, self._asks(), cleaned["proof"]
        ):
            self.add_error("proof", proof.NOT_YOURS)
        return cleaned

    def _asks(self) -> User:
        return cast(User, self.request.user)

    @property
    def faults(self) -> list[dict[str, str]]:
        """For ``_errors.html``: each with its box."""
        return [
            {
                "id": self[name].auto_id if name in self.fields else "",
                "label": str(self[name].label) if name in self.fields else "",
                "message": str(message),
            }
            for name, said in self.errors.items()
            for message in said
        ]


class ReasonForm(ProvenForm):
    """Any change of somebody's account: what the manager saw, and why it is made."""

    seen = forms.IntegerField(widget=forms.HiddenInput)
    why = forms.CharField(label=_("Why"), max_length=LONGEST_WHY)
    field_order = ("seen", "group", "why", "proof")


class GroupForm(ReasonForm):
    """Into another group."""

    group = forms.ChoiceField(label=_("Group"), choices=_GROUPS)


class PersonForm(ProvenForm):
    """A new member of the staff."""

    name = forms.CharField(
        label=_("Name to log in with"),
        max_length=150,
        validators=[User.username_validator],
    )
    full_name = forms.CharField(label=_("Full name"), max_length=150)
    group = forms.ChoiceField(label=_("Group"), choices=_GROUPS)
    why = forms.CharField(label=_("Why"), max_length=LONGEST_WHY)
    field_order = ("name", "full_name", "group", "why", "proof")


class RuleForm(ProvenForm):
    """Of whom a second factor is asked."""

    seen = forms.IntegerField(widget=forms.HiddenInput)
    asked = forms.ChoiceField(
        label=_("Asked of"),
        choices=[
            ("nobody", _("nobody")),
            ("groups", _("these groups")),
            ("everyone", _("everyone")),
        ],
        widget=forms.RadioSelect,
    )
    groups = forms.MultipleChoiceField(
        label=_("Groups"), choices=_GROUPS, required=False, widget=forms.CheckboxSelectMultiple
    )
    why = forms.CharField(label=_("Why"), max_length=LONGEST_WHY)
    field_order = ("seen", "asked", "groups", "why", "proof")

    def clean(self) -> dict[str, Any]:
        if self.cleaned_data.get("asked") == "groups" and not self.cleaned_data.get("groups"):
            self.add_error("groups", _("Tick at least one group, or choose nobody."))
        return super().clean()


class OwnPasswordForm(ProvenForm):
    """A new password of one's own, typed twice."""

    new = _password(_("New password"), "new-password")
    again = _password(_("New password once more"), "new-password")
    field_order = ("proof", "new", "again")

    def clean(self) -> dict[str, Any]:
        new, again = self.cleaned_data.get("new"), self.cleaned_data.get("again")
        if new and again and new != again:
            self.add_error("again", _("The two new passwords differ. Type both again."))
        if new and new == self.cleaned_data.get("proof"):
            self.add_error("new", _("This is the password you have. Choose another one."))
        if new:
            self._judge(new)
        return super().clean()

    def _judge(self, new: str) -> None:
        try:
            password_validation.validate_password(new, self._asks())
        except forms.ValidationError as error:
            self.add_error("new", error)


class FactorForm(ProvenForm):
    """A change of one's own second factor; with a code where there is one already."""

    code = forms.CharField(
        label=_("Code from your phone, or a recovery code"),
        max_length=60,
        widget=forms.TextInput(attrs={"autocomplete": "one-time-code", "spellcheck": "false"}),
    )
    field_order = ("proof", "code")

    def __init__(self, request: HttpRequest, *args: Any, is_on: bool, **kwargs: Any) -> None:
        super().__init__(request, *args, **kwargs)
        if not is_on:
            del self.fields["code"]

    def clean(self) -> dict[str, Any]:
        cleaned = super().clean()
        if not self.errors and "code" in self.fields:
            said = proof.code_fault(self.request, self._asks(), cleaned["code"])
            if said:
                self.add_error("code", said)
        return cleaned
