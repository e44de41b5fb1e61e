"""Groups and their permissions: the one table of who may do what."""

from __future__ import annotations

from typing import TYPE_CHECKING

from django.contrib.auth import get_user_model
from django.contrib.auth.models import Group, Permission
from django.db import transaction

if TYPE_CHECKING:
    from django.contrib.auth.models import User

_COUNTER = ("intake.view_submission", "intake.add_callrecord", "quotes.add_quote")
_MANAGER = (
    "intake.view_insights",
    "intake.override_stop",
    "catalog.add_part",
    "catalog.change_part",
    "catalog.view_part",
    "quotes.view_quote",
)
GROUPS: dict[str, tuple[str, ...]] = {
    "counter": _COUNTER,
    "machinist": ("intake.view_submission", "quotes.view_quote"),
    "manager": _COUNTER + _MANAGER,
}


@transaction.atomic
def make_groups() -> None:
    """Make the three groups and give each exactly its permissions. Safe to repeat."""
    known = {
        f"{permission.content_type.app_label}.{permission.codename}": permission
        for permission in Permission.objects.select_related("content_type")
    }
    for name, wanted in GROUPS.items():
        group, _ = Group.objects.get_or_create(name=name)
        group.permissions.set([known[codename] for codename in wanted if codename in known])


@transaction.atomic
def make_person(*, name: str, group: str, password: str) -> User:
    """Make one member of staff if there is none of that name; never changes a password."""
    person, new = get_user_model().objects.get_or_create(
        username=name, defaults={"is_staff": group == "manager"}
    )
    if new:
        person.set_password(password)
        person.save(update_fields=["password"])
        person.groups.add(Group.objects.get(name=group))
    return person
