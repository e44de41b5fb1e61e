"""Every list of the shop and the desk, with rows on it: so many queries, however many rows.

zeal says so where a row asks for itself through the models; the number, where it asks otherwise.
"""

from __future__ import annotations

from importlib.resources import files

import pytest
from django.contrib.auth.models import Group
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from catalog.services import load_catalog
from tests.bench import crowd
from tests.staff.given import a_member, logged_in

pytestmark = pytest.mark.django_db

# The page, what is asked of it: how many queries. Four are the session, who it is, what they may,
# and how many calls wait; the rest is the page's own.
PAGES = {
    ("shop", ""): 11,
    ("bars", ""): 7,
    ("reorder", ""): 7,
    ("awaited-parts", ""): 5,
    ("silent", ""): 5,
    ("cases", ""): 6,
    ("cases", "?show=cause"): 6,
    ("cases", "?show=closed"): 6,
    ("invoices", ""): 9,
    ("pieces", ""): 6,
    ("pieces", "?show=gone"): 6,
    ("prices", ""): 6,
    ("rates", ""): 6,
    ("quotes-today", ""): 7,
    ("today", ""): 11,
    ("calendar", ""): 6,
}


def test_a_list_asks_as_often_whatever_stands_on_it() -> None:
    load_catalog(files("catalog").joinpath("data/demo_catalog.csv").read_text("utf-8"))
    maud = a_member("maud", "counter")
    maud.groups.set(Group.objects.all())
    crowd.make(100, maud)
    client = logged_in(maud)
    client.get(reverse("shop"))
    found = {page: _asked(client, *page) for page in PAGES}
    assert found == PAGES


def _asked(client: Client, name: str, words: str) -> int:
    with CaptureQueriesContext(connection) as asked:
        page = client.get(reverse(name) + words)
    assert page.status_code == 200
    return len(asked)
