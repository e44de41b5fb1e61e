"""Who changed which part, when and why: by hand, by a table, and at what cost."""

from __future__ import annotations

from importlib import resources
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from catalog import services
from catalog.models import Part
from staff.models import Change
from staff.trail.selectors import changes_of

DEMO = resources.files("catalog").joinpath("data/demo_catalog.csv").read_text("utf-8")
pytestmark = pytest.mark.django_db
CODE = "BH-1000"


@pytest.fixture
def percival() -> User:
    return User.objects.create_superuser("percival")


@pytest.fixture
def keeper(client: Client, percival: User) -> Client:
    services.load_catalog(DEMO)
    client.force_login(percival, backend="django.contrib.auth.backends.ModelBackend")
    return client


def save(client: Client, **changes: str) -> Any:
    part = Part.objects.get(code=CODE)
    address = f"/admin/catalog/part/{part.pk}/change/"
    initial = client.get(address).context["adminform"].form
    values = {field.html_name: field.value() for field in initial}
    form = {name: "" if value is None else value for name, value in values.items()}
    return client.post(address, {**form, **changes})


def newest(code: str = CODE) -> Change:
    change = changes_of("part", code).first()
    assert change
    return change


@pytest.mark.parametrize(("why", "told"), [("counted", "counted"), ("", "in the admin")])
def test_a_change_by_hand_says_who_and_why(keeper: Client, why: str, told: str) -> None:
    before = Part.objects.get(code=CODE).on_hand
    assert save(keeper, on_hand="77", why=why).status_code == 302
    change = newest()
    assert change.what == {"on hand": [str(before), "77"]}
    assert (change.by.username, change.why) == ("percival", told)  # type: ignore[union-attr]


def test_saving_unchanged_leaves_no_line(keeper: Client) -> None:
    count = Change.objects.count()
    save(keeper)
    assert Change.objects.count() == count


def test_a_size_is_told_exactly(keeper: Client) -> None:
    save(keeper, diameter_nm="25 mm")
    assert newest().what["diameter"] == ["1 in", "25 mm"]


def test_the_trail_is_shown_where_the_part_is_kept_and_to_the_desk(keeper: Client) -> None:
    save(keeper, on_hand="77", why="counted on the shelf")
    part = Part.objects.get(code=CODE)
    for page in (f"/admin/catalog/part/{part.pk}/change/", f"/catalog/changes/{CODE}"):
        assert "counted on the shelf" in keeper.get(page).content.decode(), page
    assert f'href="/catalog/changes/{CODE}"' in keeper.get("/catalog/?kind=bar").content.decode()


def test_a_part_taken_out_keeps_its_trail(keeper: Client) -> None:
    part = Part.objects.get(code=CODE)
    keeper.post(f"/admin/catalog/part/{part.pk}/delete/", {"post": "yes"})
    assert newest().what["code"] == [CODE, None]
    assert keeper.get(f"/catalog/changes/{CODE}").status_code == 200
    assert keeper.get("/catalog/changes/NO-SUCH").status_code == 404


def test_a_stranger_sees_no_trail(client: Client) -> None:
    assert client.get(f"/catalog/changes/{CODE}").status_code == 302


def a_table(count: int, price: str) -> str:
    """So many pins, each at this price."""
    rows = [f"X-{number},hardware,both,A pin,{price},each" for number in range(count)]
    names = ["code", "kind", "system", "description", "price", "per"]
    other = [name for name in DEMO.splitlines()[0].split(",") if name not in names]
    empty = "," * len(other)
    return "\n".join([",".join([*names, *other]), *(row + empty for row in rows)])


def test_a_table_leaves_one_line_for_each_part_that_is_new_or_changed(percival: User) -> None:
    services.load_catalog(DEMO, by=percival, why="opening stock")
    parts = Part.objects.count()
    assert Change.objects.filter(record="part").count() == parts
    services.load_catalog(DEMO, by=percival, why="again")
    assert Change.objects.filter(record="part").count() == parts


def test_a_price_changed_by_a_table(percival: User) -> None:
    services.load_catalog(a_table(2, "4.10"), by=percival, why="new")
    services.load_catalog(a_table(1, "4.50"), by=percival, why="dearer")
    change = newest("X-0")
    assert (change.what, change.why, change.by) == ({"price": ["4.1", "4.5"]}, "dearer", percival)
    assert newest("X-1").why == "new"


def test_a_big_table_costs_a_few_queries_more() -> None:
    with CaptureQueriesContext(connection) as asked:
        services.load_catalog(a_table(2000, "4.10"))
    assert Change.objects.count() == 2000
    lines = [one for one in asked if "staff_change" in one["sql"]]
    assert len(lines) <= 13  # SQLite takes 166 lines at a time, PostgreSQL 500
