"""Staff pages: first a login, then the right; and looking changes nothing."""

from __future__ import annotations

from typing import Any

import pytest
from django.contrib.auth.models import AnonymousUser, Permission, User
from django.core.exceptions import PermissionDenied
from django.http import HttpRequest, HttpResponse
from django.test import Client, RequestFactory

from intake import services
from intake.access import View, counter_required, manager_required, staff_required
from tests.intake.bodies import SHORT, a_body

pytestmark = pytest.mark.django_db

COUNTER = ("view_submission", "add_callrecord")


def who(*permissions: str) -> User:
    user = User.objects.create_user("somebody", is_staff=True)
    user.user_permissions.set(Permission.objects.filter(codename__in=permissions))
    return user


def ask(guard: Any, user: User | AnonymousUser) -> HttpResponse:
    def page(request: HttpRequest) -> HttpResponse:
        return HttpResponse("in")

    request = RequestFactory().get("/desk/?boat=otter")
    request.user = user
    view: View = guard(page)
    return view(request)


@pytest.mark.parametrize("guard", [staff_required, counter_required, manager_required])
def test_a_stranger_is_sent_to_the_login_and_back(guard: Any) -> None:
    response = ask(guard, AnonymousUser())
    assert response.status_code == 302
    assert response["Location"] == "/accounts/login/?next=/desk/%3Fboat%3Dotter"


@pytest.mark.parametrize(
    ("guard", "permissions", "enters"),
    [
        (staff_required, ("view_submission",), True),
        (staff_required, (), False),
        (counter_required, COUNTER, True),
        (counter_required, ("view_submission",), False),
        (manager_required, ("view_insights",), True),
        (manager_required, COUNTER, False),
    ],
)
def test_a_page_is_for_whoever_has_the_right(
    guard: Any, permissions: tuple[str, ...], enters: bool
) -> None:
    user = who(*permissions)
    if enters:
        assert ask(guard, user).content == b"in"
    else:
        with pytest.raises(PermissionDenied):
            ask(guard, user)


@pytest.mark.parametrize(
    "model",
    [
        "submission",
        "sheetversion",
        "findingrecord",
        "callrecord",
        "event",
        "job",
        "limitset",
        "photo",
    ],
)
def test_the_admin_shows_and_changes_nothing(model: str, client: Client) -> None:
    stored = services.receive_submission(body=a_body(**SHORT))
    root = User.objects.create_superuser("root")
    client.force_login(root, backend="django.contrib.auth.backends.ModelBackend")
    assert client.get(f"/admin/intake/{model}/").status_code == 200
    assert client.get(f"/admin/intake/{model}/add/").status_code == 403
    if model == "submission":
        page = client.get(f"/admin/intake/submission/{stored.pk}/change/")
        assert page.status_code == 200
        assert stored.token not in page.content.decode()
        assert client.post(f"/admin/intake/submission/{stored.pk}/delete/").status_code == 403
