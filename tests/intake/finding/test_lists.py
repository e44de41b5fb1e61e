"""Lists of requests: every order and every filter, page by page, each row once."""

from __future__ import annotations

import csv
import io
from datetime import timedelta
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from intake.finding.lists import selectors, views
from intake.finding.lists.asked import SORTS, asked_for
from intake.finding.lists.selectors import neighbours, page_of
from intake.models import Submission
from intake.services import close
from tests.intake.desk_given import a_person, stock_the_shelf
from tests.intake.finding.given import a_request, indexed, measured, queries

pytestmark = pytest.mark.django_db
TODAY = timezone.localdate()


@pytest.fixture(autouse=True)
def parts_on_the_shelf(db: None) -> None:
    """The demo catalogue, as the shop has it."""
    stock_the_shelf()


@pytest.fixture
def counter(client: Client) -> Client:
    client.force_login(a_person("counter", "maud"))
    return client


@pytest.fixture
def fleet() -> list[Submission]:
    """Seven requests that no two orders show alike."""
    boats = ("Ant", "Bee", "Cat", "Ant", "Dog", "", "Cat")
    fleet = [a_request(boat or "Nameless") for boat in boats]
    for n, (request, verdict) in enumerate(zip(fleet, "rasrsar", strict=True)):
        columns: dict[str, Any] = {
            "verdict": {"r": "release", "a": "ask", "s": "stop"}[verdict],
            "status": "needs_call" if verdict != "r" else "ready",
            "needed_by": TODAY + timedelta(days=(n * 3) % 7) if n % 2 else None,
            "received_at": timezone.now() - timedelta(days=7 - n),
        }
        if not boats[n]:
            columns |= {"boat_name": "", "boat_key": ""}
        Submission.objects.filter(pk=request.pk).update(**columns)
    return list(indexed(*Submission.objects.filter(pk__in=[one.pk for one in fleet])))


def all_keys(size: int = 2, **typed: str) -> list[int]:
    """The whole list, turned page by page."""
    keys: list[int] = []
    asked = asked_for(typed)
    while True:
        page = page_of(asked, size)
        keys += page.keys
        if not page.has_more:
            return keys
        asked = asked_for({**typed, "after": str(page.keys[-1])})


def expected(fleet: list[Submission], sort: str) -> list[int]:
    far = TODAY + timedelta(days=9999)
    keys = {
        "newest": lambda one: -one.pk,
        "oldest": lambda one: one.pk,
        "needed": lambda one: (one.needed_by or far, -one.pk),
        "verdict": lambda one: (["stop", "ask", "release"].index(one.verdict), -one.pk),
        "boat": lambda one: (one.boat_key or "~", -one.pk),
        "waiting": lambda one: (one.status != "needs_call", one.pk),
    }
    return [one.pk for one in sorted(fleet, key=keys[sort])]


@pytest.mark.parametrize("size", [1, 2, 3, 7, 25])
@pytest.mark.parametrize("sort", SORTS)
def test_every_order_shows_every_request_once(
    fleet: list[Submission], sort: str, size: int
) -> None:
    fresh = list(Submission.objects.filter(pk__in=[one.pk for one in fleet]))
    assert all_keys(size, sort=sort) == expected(fresh, sort)


@pytest.mark.parametrize("sort", SORTS)
def test_one_may_turn_back_as_well(fleet: list[Submission], sort: str) -> None:
    keys = all_keys(7, sort=sort)
    back = page_of(asked_for({"sort": sort, "before": str(keys[5])}), 3)
    assert list(back.keys) == keys[2:5]
    assert not back.is_first
    top = page_of(asked_for({"sort": sort, "before": str(keys[2])}), 3)
    assert list(top.keys) == keys[:2]
    assert top.is_first


@pytest.mark.parametrize("sort", SORTS)
@pytest.mark.parametrize("typed", [{}, {"status": "ready"}, {"q": "barrel tarpley"}, {"q": "cat"}])
def test_each_has_its_neighbours_in_the_list(
    fleet: list[Submission], sort: str, typed: dict[str, str]
) -> None:
    keys = all_keys(7, sort=sort, **typed)
    asked = asked_for({"sort": sort, **typed})
    for before, key, after in zip([None, *keys], keys, [*keys[1:], None], strict=False):
        assert neighbours(asked, key) == (before, after)


@pytest.mark.parametrize("sort", SORTS)
@pytest.mark.parametrize(
    "typed",
    [
        {"status": "ready"},
        {"verdict": "stop"},
        {"verdict": "stop", "status": "needs_call"},
        {"channel": "form", "status": "ready", "q": "cat"},
        {"month": f"{TODAY:%Y-%m}", "by": "0"},
        {"channel": "paper"},
        {"by": "99999"},
        {"q": "tarpley"},
        {"q": "0100", "verdict": "ask"},
    ],
)
def test_filters_leave_what_fits(
    fleet: list[Submission], sort: str, typed: dict[str, str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """Looked up first, or walked along the order's index: the same list."""
    fresh = {one.pk: one for one in Submission.objects.all()}
    fits = [key for key in all_keys(7, sort=sort) if _fits(fresh[key], typed)]
    assert all_keys(2, sort=sort, **typed) == fits
    monkeypatch.setattr(selectors, "FEW", 0)
    if "q" not in typed or sort in ("newest", "oldest"):
        assert all_keys(2, sort=sort, **typed) == fits
    else:  # too many to be sorted: newest first, and said
        assert all_keys(2, sort=sort, **typed) == sorted(fits, reverse=True)
        assert page_of(asked_for({"sort": sort, **typed}), 2).too_many is bool(fits)


def _fits(one: Submission, typed: dict[str, str]) -> bool:
    own = {
        "status": one.status,
        "verdict": one.verdict,
        "channel": one.channel,
        "month": f"{timezone.localtime(one.received_at):%Y-%m}",
        "by": "0",
    }
    words = typed.get("q", "").replace("0100", "").replace("tarpley", "").split()
    return all(own[name] == value for name, value in typed.items() if name != "q") and all(
        word in one.boat_key for word in words
    )


def test_what_has_just_come_stands_on_top_at_once(counter: Client) -> None:
    indexed(a_request("Ant"))
    new = a_request("Brand New")
    assert new.reference in counter.get(reverse("requests")).content.decode()


def test_who_made_the_last_change_is_shown_and_filtered_by(counter: Client) -> None:
    maud = a_person("counter", "iolo")
    held = a_request("Ant", face_to_strut_aft=measured("45 1/8", "rod"))
    close(submission=held, reason="no longer wanted", by=maud)
    indexed(a_request("Bee"))
    page = counter.get(reverse("requests"), {"by": str(maud.pk)}).content.decode()
    assert "Ant" in page
    assert "Bee" not in page


def test_the_list_costs_the_same_however_long_it_is(counter: Client) -> None:
    a_request("Ant")
    for typed in ("", "?q=tarpley", "?status=ready&sort=needed", "?q=tarpley&sort=boat"):
        indexed()
        few = queries(counter, reverse("requests") + typed)
        for _ in range(4):
            a_request("Bee")
        indexed()
        assert few == queries(counter, reverse("requests") + typed) <= 12, typed


def test_a_long_list_has_a_way_on_and_a_way_back(
    counter: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(views, "PAGE", 2)
    ants = indexed(*(a_request(f"Ant {n}") for n in range(5)))
    page = counter.get(reverse("requests"), {"q": "ant"}).content.decode()
    assert f'rel="next" href="?q=ant&amp;after={ants[3].pk}"' in page
    assert 'rel="prev"' not in page
    page = counter.get(reverse("requests"), {"q": "ant", "after": str(ants[3].pk)}).content.decode()
    assert f'rel="prev" href="?q=ant&amp;before={ants[2].pk}"' in page


@pytest.mark.parametrize(
    "typed",
    [
        {"after": "x"},
        {"after": "9" * 30},
        {"before": "-1"},
        {"after": "0", "sort": "boat"},
        {"before": "5", "after": "7"},
        {"month": "2026-99", "by": "maud", "verdict": "9", "status": "'", "channel": "*"},
        {"sort": "words", "q": "\x00"},
    ],
)
def test_any_address_is_a_list(counter: Client, typed: dict[str, str]) -> None:
    a_request("Ant")
    assert counter.get(reverse("requests"), typed).status_code == 200
    assert counter.get(reverse("requests-csv"), typed).status_code == 200


def rows_of(client: Client, **typed: str) -> list[list[str]]:
    answer = client.get(reverse("requests-csv"), typed)
    return list(csv.reader(io.StringIO(b"".join(answer).decode())))


def test_the_table_file_holds_what_is_shown_and_no_formula(counter: Client) -> None:
    indexed(a_request("=HYPERLINK(1)", name="@maud"), a_request("Bee"))
    head, bee, formula = rows_of(counter)
    assert head[0] == "reference"
    assert bee[1] == "Bee"
    assert formula[1] == "'=HYPERLINK(1)"
    assert formula[3] == "'@maud"
    assert formula[4] == "'+1 202 555 0100"
    assert [row[1] for row in rows_of(counter, q="bee")[1:]] == ["Bee"]


def test_the_table_file_ends_somewhere_and_says_so(
    counter: Client, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(views, "CSV_MOST", 3)
    monkeypatch.setattr(views, "CSV_AT_ONCE", 2)
    indexed(*(a_request(f"Ant {n}") for n in range(5)))
    rows = rows_of(counter, sort="boat")
    assert [row[1] for row in rows[1:4]] == ["Ant 0", "Ant 1", "Ant 2"]
    assert "only the first 3" in rows[4][0]


def test_lists_are_for_whoever_reads_requests(client: Client) -> None:
    client.force_login(a_person("stranger", "nobody"))
    assert client.get(reverse("requests")).status_code == 403
    assert client.get(reverse("requests-csv")).status_code == 403
