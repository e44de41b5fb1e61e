"""The shelf and the people every test of call-backs needs."""

from __future__ import annotations

import pytest
from django.contrib.auth.models import User
from django.test import Client

from tests.intake.desk_given import a_person, stock_the_shelf


@pytest.fixture(autouse=True)
def parts_on_the_shelf(db: None) -> None:
    """The demo catalogue, as the shop has it."""
    stock_the_shelf()


@pytest.fixture
def maud(db: None) -> User:
    return a_person("counter", "maud")


@pytest.fixture
def iolo(db: None) -> User:
    return a_person("counter", "iolo")


@pytest.fixture
def percival(db: None) -> User:
    """May release over a stop."""
    return a_person("manager", "percival")


@pytest.fixture
def counter(client: Client, maud: User) -> Client:
    """A browser with maud logged in."""
    client.force_login(maud)
    return client


@pytest.fixture
def other(iolo: User) -> Client:
    """A browser with iolo logged in."""
    client = Client()
    client.force_login(iolo)
    return client
