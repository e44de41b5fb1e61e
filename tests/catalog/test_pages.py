"""The room's two pages and its download."""

from __future__ import annotations

from importlib import resources
from typing import Any

import pytest
from django.test import Client

from catalog import services
from catalog.domain.standards import TITLES
from catalog.tables import read_parts

DEMO = resources.files("catalog").joinpath("data/demo_catalog.csv").read_text("utf-8")
pytestmark = pytest.mark.django_db


@pytest.fixture
def staff(client: Client, django_user_model: Any) -> Client:
    user = django_user_model.objects.create_user("maud")
    client.force_login(user, backend="django.contrib.auth.backends.ModelBackend")
    return client


def test_the_tables_are_for_everybody(client: Client, django_assert_num_queries: Any) -> None:
    with django_assert_num_queries(0):
        page = client.get("/standards/")
    text = page.content.decode()
    assert page.status_code == 200
    assert all(f'id="{name}"' in text for name in TITLES)
    assert "from memory: verify before metal is cut" in text
    assert "SAE J755 (MAY2015), Table 1" in text
    assert client.post("/standards/").status_code == 405


def test_the_catalogue_is_for_the_desk(client: Client) -> None:
    for address in ("/catalog/", "/catalog/parts.csv"):
        answer = client.get(address)
        assert answer.status_code == 302
        assert answer["Location"].startswith("/accounts/login/")


def test_the_catalogue_page(staff: Client) -> None:
    services.load_catalog(DEMO)
    first = staff.get("/catalog/").content.decode()
    assert "BH-1000" in first
    assert "not counted" in staff.get("/catalog/?kind=service").content.decode()
    assert "after=" in first
    bearings = staff.get("/catalog/?kind=bearing").content.decode()
    assert "BR-1125-1500-3N" in bearings
    assert "BH-1000" not in bearings


@pytest.mark.parametrize("query", ["?kind=nonsense", "?after=zzz", "?after=%00", "?kind=&after="])
def test_an_odd_address_is_no_fault(staff: Client, query: str) -> None:
    assert staff.get(f"/catalog/{query}").status_code == 200


def test_an_empty_catalogue(staff: Client) -> None:
    assert "Nothing here yet." in staff.get("/catalog/").content.decode()


def test_a_page_costs_the_same_however_many_parts(
    staff: Client, django_assert_num_queries: Any
) -> None:
    services.load_catalog(DEMO)
    with django_assert_num_queries(5):  # session, person, permissions, parts, their prices
        staff.get("/catalog/")


def test_the_download_can_be_loaded_again(staff: Client) -> None:
    services.load_catalog(DEMO)
    answer = staff.get("/catalog/parts.csv")
    assert answer["Content-Type"] == "text/csv"
    assert read_parts(answer.content.decode()) == read_parts(DEMO)
    assert services.load_catalog(answer.content.decode()).unchanged == 107


def test_what_people_typed_is_text_not_markup(staff: Client) -> None:
    services.load_catalog(DEMO.replace("round bar 1 in", "<b>round</b> bar 1 in"))
    assert "&lt;b&gt;round" in staff.get("/catalog/").content.decode()
