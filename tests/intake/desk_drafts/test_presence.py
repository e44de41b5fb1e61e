"""Who has which page open: told to others, written seldom, forgotten soon."""

from __future__ import annotations

from collections.abc import Callable
from datetime import timedelta
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from intake.desk_drafts.presence.selectors import all_here, draft_place, others_here, request_place
from intake.desk_drafts.presence.services import forget_who_left, look
from intake.models import PageOpen
from tests.intake.desk_drafts.given import a_browser
from tests.intake.desk_given import a_person

pytestmark = pytest.mark.django_db

PLACE = request_place("FG-ABCDEF")


@pytest.fixture
def later(monkeypatch: pytest.MonkeyPatch) -> Callable[[int], None]:
    """``later(16)``: so many seconds pass."""
    moment = [timezone.now()]
    monkeypatch.setattr(timezone, "now", lambda: moment[0])

    def pass_by(seconds: int) -> None:
        moment[0] += timedelta(seconds=seconds)

    return pass_by


def test_others_are_named_and_i_am_not() -> None:
    maud, iolo = User.objects.create_user("maud"), User.objects.create_user("iolo")
    assert look(place=PLACE, by=maud) == []
    assert look(place=PLACE, by=iolo) == ["maud"]
    assert others_here(PLACE, maud) == ["iolo"]
    assert others_here(draft_place("x"), maud) == []


def test_who_was_here_first_is_named_first(later: Callable[[int], None]) -> None:
    for name in ("maud", "iolo", "odile"):
        look(place=PLACE, by=User.objects.create_user(name))
        later(1)
    assert others_here(PLACE, None) == ["maud", "iolo", "odile"]


def test_looking_is_written_at_most_every_fifteen_seconds(
    later: Callable[[int], None], django_assert_num_queries: Any
) -> None:
    maud = User.objects.create_user("maud")
    look(place=PLACE, by=maud)
    later(14)
    with django_assert_num_queries(1):
        look(place=PLACE, by=maud)
    later(2)
    look(place=PLACE, by=maud)
    assert PageOpen.objects.get().seen_at == timezone.now()


def test_who_left_a_minute_ago_is_not_here(later: Callable[[int], None]) -> None:
    maud = User.objects.create_user("maud")
    look(place=PLACE, by=maud)
    later(61)
    assert others_here(PLACE, None) == []
    look(place=PLACE, by=maud)
    assert PageOpen.objects.get().since == timezone.now()


def test_yesterdays_looks_are_thrown_away(later: Callable[[int], None]) -> None:
    look(place=PLACE, by=User.objects.create_user("maud"))
    later(86_000)
    look(place=PLACE, by=User.objects.create_user("iolo"))
    later(1_000)
    forget_who_left()
    assert [row.by.username for row in PageOpen.objects.all()] == ["iolo"]


def test_many_places_are_one_question(django_assert_num_queries: Any) -> None:
    maud = User.objects.create_user("maud")
    places = [draft_place(str(number)) for number in range(5)]
    for place in places[:3]:
        look(place=place, by=maud)
    with django_assert_num_queries(1):
        assert dict(all_here(places)) == {place: ["maud"] for place in places[:3]}


# --- The page's ping ------------------------------------------------------------------


def test_a_page_says_that_it_is_open_and_hears_who_else_is_there() -> None:
    maud, iolo = a_browser("maud"), a_browser("iolo", "machinist")
    assert "Also here" not in maud.post(reverse("desk-here"), {"place": PLACE}).content.decode()
    heard = iolo.post(reverse("desk-here"), {"place": PLACE}).content.decode()
    assert heard.strip() == "Also here: maud"


@pytest.mark.parametrize("place", ["", "draft", "garden x", "draft a b", "draft " + "a" * 41])
def test_a_place_that_is_none_is_not_found(place: str) -> None:
    assert a_browser("maud").post(reverse("desk-here"), {"place": place}).status_code == 404
    assert not PageOpen.objects.exists()


def test_only_staff_say_so(client: Client) -> None:
    assert client.post(reverse("desk-here"), {"place": PLACE}).status_code == 302
    client.force_login(a_person("stranger"))
    assert client.post(reverse("desk-here"), {"place": PLACE}).status_code == 403
    strict = Client(enforce_csrf_checks=True)
    strict.force_login(a_person("counter"))
    assert strict.post(reverse("desk-here"), {"place": PLACE}).status_code == 403
    assert a_browser("maud").get(reverse("desk-here")).status_code == 405
    assert not PageOpen.objects.exists()
