"""One statement gives what Django's own two give, for everybody."""

from __future__ import annotations

from typing import Any

import pytest
from django.contrib.auth.backends import ModelBackend
from django.contrib.auth.models import AnonymousUser, Group, Permission, User

from staff.accounts.services import make_groups

pytestmark = pytest.mark.django_db


@pytest.mark.parametrize("groups", [(), ("counter",), ("counter", "manager")])
@pytest.mark.parametrize(
    "told", [{}, {"is_active": False}, {"is_superuser": True}], ids=["plain", "left", "super"]
)
def test_what_somebody_may_do_is_what_django_says(
    groups: tuple[str, ...], told: dict[str, bool]
) -> None:
    make_groups()
    User.objects.create_user("iolo").user_permissions.add(*Permission.objects.all()[:1])
    person = User.objects.create_user("maud", **told)
    person.groups.set(Group.objects.filter(name__in=groups))
    person.user_permissions.add(*Permission.objects.order_by("-pk")[:2])
    theirs = ModelBackend().get_all_permissions(User.objects.get(pk=person.pk))
    assert User.objects.get(pk=person.pk).get_all_permissions() == theirs
    assert bool(theirs) is told.get("is_active", True)


def test_it_is_asked_once_and_of_nobody_not_at_all(django_assert_num_queries: Any) -> None:
    person = User.objects.create_user("maud")
    with django_assert_num_queries(1):
        assert not person.has_perm("intake.view_submission")
        assert not person.has_perms(("intake.view_submission", "intake.add_callrecord"))
    with django_assert_num_queries(0):
        assert not person.has_perm("intake.view_submission", person)
        assert not AnonymousUser().has_perm("intake.view_submission")
