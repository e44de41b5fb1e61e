"""Who is on the phone: found from a few digits or letters, also from letters not quite heard."""

from __future__ import annotations

import pytest
from django.test import Client
from django.urls import reverse

from catalog.domain.lengths import inches
from intake.finding.finder.selectors import MOST, find
from intake.finding.services import forget, index_waiting
from intake.models import Submission
from intake.records.services import record_fit
from tests.intake.desk_given import a_person, stock_the_shelf
from tests.intake.finding.given import a_request, indexed, queries

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def parts_on_the_shelf(db: None) -> None:
    """The demo catalogue, as the shop has it."""
    stock_the_shelf()


@pytest.fixture
def crew() -> list[Submission]:
    """Two customers, three boats, one of them with two sides."""
    return list(
        indexed(
            a_request("Biscuit Barrel", "Wilmot Tarpley", "+1 202 555 0142"),
            a_request("Kettle Drum", "Odile Marsh", "+1 202 555 0177", station="port"),
            a_request("Kettle Drum", "Odile Marsh", "+1 202 555 0177", station="starboard"),
            a_request("Slow Tide", "Odile Marsh", "+1 202 555 0177"),
        )
    )


def names(text: str) -> list[str]:
    return [f"{found.boat_name}/{found.last.station}" for found in find(text)]


@pytest.mark.parametrize(
    "text",
    ["+1 202 555 0142", "2025550142", "550142", "0142", "02025550142", "0044 1 202 555 0142"],
)
def test_a_boat_is_found_by_any_end_of_a_number(crew: list[Submission], text: str) -> None:
    assert names(text) == ["Biscuit Barrel/single"]


@pytest.mark.parametrize(
    "text", ["ta", "tarp", "Tarpley", "wilmot tar", "bisc", "barrel biscuit", "tarpley biscuit"]
)
def test_a_boat_is_found_while_the_name_is_typed(crew: list[Submission], text: str) -> None:
    assert names(text) == ["Biscuit Barrel/single"]


@pytest.mark.parametrize(
    "text",
    [
        "tarply",
        "tarpleyy",
        "taprley",
        "tarqley",
        "wilmott tarplay",
        "biskuit",
        "bicsuit barel",
        "tarpk",
        "garpley",
    ],
)
def test_one_letter_may_be_wrong_in_each_word(crew: list[Submission], text: str) -> None:
    assert names(text) == ["Biscuit Barrel/single"]


@pytest.mark.parametrize("text", ["tripley marsh", "b", "", "%", "zzzz", "99999"])
def test_who_is_not_there_is_not_found(crew: list[Submission], text: str) -> None:
    assert names(text) == []


def test_each_boat_and_side_comes_once_with_her_newest_request(crew: list[Submission]) -> None:
    (newer,) = indexed(a_request("Slow Tide", "Odile Marsh", "+1 202 555 0177"))
    found = find("odile")
    assert [one.last.pk for one in found] == [newer.pk, crew[2].pk, crew[1].pk]


def test_who_is_spelt_exactly_comes_before_who_only_sounds_so(crew: list[Submission]) -> None:
    indexed(a_request("Kettle Dram", "Maris Odill", "+1 202 555 0111"))
    assert names("odile")[-1] == "Kettle Dram/single"
    assert names("odill")[0] == "Kettle Dram/single"


def test_no_more_than_a_few_are_shown(crew: list[Submission]) -> None:
    indexed(*(a_request(f"Otter {n}", phone=f"+1 202 555 03{n:02d}") for n in range(12)))
    assert len(find("otter")) == MOST


def test_the_shaft_she_has_of_us_is_told(crew: list[Submission]) -> None:
    record_fit(submission=crew[0], length=inches("48 5/8"), diameter=inches("1"))
    (found,) = find("biscuit")
    assert found.supplied == "48 5/8 in · 1235.1 mm"
    assert find("odile")[0].supplied == ""


def test_who_is_forgotten_is_not_found(crew: list[Submission]) -> None:
    forget([crew[0].pk])
    assert names("tarpley") == []
    Submission.objects.filter(pk=crew[0].pk).update(erased_at=crew[0].received_at)
    index_waiting()
    assert names("tarpley") == []


def test_the_fragment_links_each_boat_for_the_keyboard(
    crew: list[Submission], client: Client
) -> None:
    client.force_login(a_person("counter", "maud"))
    page = client.get(reverse("desk-find"), {"q": "odile"}).content.decode()
    assert page.count("<li>") == 3
    assert reverse("submission", args=[crew[3].reference]) in page
    assert "3 boats found" in page
    address = f"{reverse('desk-find')}?q=odile"
    few = queries(client, address)
    indexed(*(a_request(f"Otter {n}", "Odile Marsh") for n in range(4)))
    assert few == queries(client, address) <= 12


@pytest.mark.parametrize("text", ["<script>", "' OR 1=1 --", '"*', "\x00", "😀😀", "x" * 10_000])
def test_whatever_is_typed_is_no_error(crew: list[Submission], client: Client, text: str) -> None:
    client.force_login(a_person("counter", "maud"))
    page = client.get(reverse("desk-find"), {"q": text})
    assert page.status_code == 200
    assert b"<script>" not in page.content


def test_it_is_for_the_counter(client: Client) -> None:
    client.force_login(a_person("machinist", "bronagh"))
    assert client.get(reverse("desk-find"), {"q": "odile"}).status_code == 403
