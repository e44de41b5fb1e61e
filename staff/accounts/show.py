"""What the pages about people show."""

from __future__ import annotations

from typing import Any

from django.contrib.auth.models import User
from django.http import HttpRequest

from staff.accounts import forms, selectors
from staff.seats.guard import seat_number
from staff.seats.selectors import open_seats
from staff.seats.show import seat_rows
from staff.second.selectors import rules
from staff.second.services import asked_of
from staff.trail.selectors import changes_of

RULES_SHOWN = 20


def people_page(
    request: HttpRequest,
    make: forms.PersonForm | None = None,
    rule: forms.RuleForm | None = None,
) -> dict[str, Any]:
    """The list, the form for a new account, and whom a second factor is asked of."""
    rows, more = selectors.people(after=request.GET.get("after", "").replace("\x00", ""))
    history = list(rules()[:RULES_SHOWN])
    newest = history[0] if history else None
    return {
        "rows": [{"person": one, "group": selectors.group_of(one)} for one in rows],
        "more": more,
        "make": make or forms.PersonForm(request, prefix="make", initial={"group": "counter"}),
        "rule": _renewed(rule, newest.number if newest else 0)
        or forms.RuleForm(request, prefix="rule", initial=_as_form(newest)),
        "asked_of": asked_of(newest),
        "history": [{"rule": one, "asked_of": asked_of(one)} for one in history],
    }


def _as_form(rule: Any) -> dict[str, Any]:
    if rule is None:
        return {"seen": 0, "asked": "nobody"}
    groups = [group.name for group in rule.groups.all()]
    asked = "everyone" if rule.everyone else "groups" if groups else "nobody"
    return {"seen": rule.number, "asked": asked, "groups": groups}


def _renewed(form: Any, seen: int) -> Any:
    """A form that is shown again carries what the page shows now, not what it showed then."""
    if form is not None:
        form.data = form.data.copy()
        form.data[form.add_prefix("seen")] = str(seen)
    return form


def person_page(
    request: HttpRequest, person: User, tried: tuple[str, forms.ReasonForm] | None = None
) -> dict[str, Any]:
    """One account with its logins, its trail and the changes that are open to it."""
    group, seen = selectors.group_of(person), selectors.revision_of(person)
    what, form = tried or ("", None)
    return {
        "person": person,
        "group": group,
        "is_me": person.pk == request.user.pk,
        "seats": seat_rows(open_seats(person), seat_number(request)),
        "trail": changes_of("account", person.pk)[:50],
        "tried": _renewed(form, seen),
        "changes": [
            {"what": name, "form": form if name == what else _blank(request, name, group, seen)}
            for name in _open_changes(person, request)
        ],
    }


def _blank(request: HttpRequest, name: str, group: str, seen: int) -> forms.ReasonForm:
    form_class = forms.GroupForm if name == "group" else forms.ReasonForm
    return form_class(request, prefix=name, initial={"seen": seen, "group": group})


def _open_changes(person: Any, request: Any) -> list[str]:
    """What may be done with this account by who looks at it."""
    if person.pk == request.user.pk or (person.is_superuser and not request.user.is_superuser):
        return []
    if not person.is_active:
        return ["reopen"]
    return ["group", "password", *(["second"] if person.has_second else []), "close"]
