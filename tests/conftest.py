"""What every test may ask for. People, parts and sheets are in tests/given.py."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pytest


def pytest_configure(config: pytest.Config) -> None:
    """Tests that commit leave an empty database behind in a few milliseconds."""
    from tests.emptying import use_it

    use_it()


# What hands a test the database; whoever asks for none of these is the same on every engine.
_DATABASE = {
    *("db", "transactional_db", "django_db_setup", "live_server", "client", "admin_client"),
    *("async_client", "django_db_reset_sequences", "django_db_serialized_rollback"),
}


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """What never asks a database runs once, in the leg on SQLite, and not again on PostgreSQL."""
    if config.getoption("--db") != "postgres" or not config.getoption("--only-with-a-database"):
        return
    with_one = [item for item in items if _asks_a_database(item)]
    config.hook.pytest_deselected(items=[item for item in items if item not in set(with_one)])
    items[:] = with_one


def _asks_a_database(item: pytest.Item) -> bool:
    marks = {mark.name for mark in item.iter_markers()}
    fixtures = set(getattr(item, "fixturenames", ()))
    return bool({"django_db", "e2e", "worker"} & marks or _DATABASE & fixtures)


@pytest.fixture
def do_jobs() -> Callable[[], int]:
    """Do all work that is due, as the job thread would: ``do_jobs()``."""
    from intake.jobs import drain

    return drain


@pytest.fixture(autouse=True)
def _nobody_has_asked_yet() -> Iterator[None]:
    """How often an address has asked is kept in this process; the next test begins at none."""
    yield
    from django.core.cache import cache

    cache.clear()


@pytest.fixture(autouse=True)
def _the_programs_own_words() -> Iterator[None]:
    """How questions are worded is kept in this process; the next test begins with our own words."""
    yield
    from intake.wording.selectors import the_programs_own

    the_programs_own()


@pytest.fixture(autouse=True)
def _english_again() -> Iterator[None]:
    """A page leaves its language behind in this thread; the next test begins as a server does."""
    yield
    from django.utils import translation

    translation.deactivate()
