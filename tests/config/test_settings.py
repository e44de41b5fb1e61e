"""The environment decides; what it must say and does not is an error at the start."""

from __future__ import annotations

import json
import subprocess
import sys

import pytest

from tests.services.conftest import ROOT, clean_environment

SHOW = """
import json
from django.conf import settings as s
print(json.dumps({name: getattr(s, name) for name in %r}, default=str))
"""


def settings_with(*names: str, **environment: str) -> dict[str, object]:
    """These settings, as a process with this environment sees them."""
    env = clean_environment(DJANGO_SETTINGS_MODULE="config.settings") | environment
    env = {name: value for name, value in env.items() if value != "(none)"}
    done = subprocess.run(
        [sys.executable, "-c", SHOW % (names,)],
        env=env, cwd=ROOT, capture_output=True, text=True, check=False,
    )  # fmt: skip
    if done.returncode:
        raise RuntimeError(done.stderr)
    return dict(json.loads(done.stdout))


def test_without_debug_a_key_is_required() -> None:
    with pytest.raises(RuntimeError, match="SECRET_KEY"):
        settings_with("DEBUG", SECRET_KEY="(none)")
    assert settings_with("DEBUG", SECRET_KEY="(none)", DEBUG="1") == {"DEBUG": True}


def test_production_is_strict_by_default() -> None:
    names = (
        "DEBUG", "SECURE_SSL_REDIRECT", "SESSION_COOKIE_SECURE", "CSRF_COOKIE_SECURE",
        "SESSION_COOKIE_HTTPONLY", "SECURE_HSTS_SECONDS", "SESSION_COOKIE_SAMESITE",
    )  # fmt: skip
    assert list(settings_with(*names).values()) == [
        False, True, True, True, True, 31_536_000, "Lax",
    ]  # fmt: skip


def test_nothing_set_is_sqlite_and_a_thread() -> None:
    found = settings_with("DATABASES", "REDIS_URL", "CELERY_BROKER_URL")
    assert found["DATABASES"]["default"]["ENGINE"].endswith("sqlite3")  # type: ignore[index]
    assert (found["REDIS_URL"], found["CELERY_BROKER_URL"]) == ("", None)


def test_two_addresses_are_postgresql_and_celery() -> None:
    found = settings_with(
        "DATABASES",
        "CELERY_BROKER_URL",
        DATABASE_URL="postgres://fairgap@127.0.0.1:1/fairgap",
        REDIS_URL="redis://127.0.0.1:1/0",
    )
    database = found["DATABASES"]["default"]  # type: ignore[index]
    assert database["ENGINE"].endswith("postgresql")
    assert database["CONN_MAX_AGE"] > 0
    assert found["CELERY_BROKER_URL"] == "redis://127.0.0.1:1/0"


def test_the_throttle_can_be_taken_off() -> None:
    off = settings_with("REST_FRAMEWORK", API_THROTTLE="")["REST_FRAMEWORK"]
    on = settings_with("REST_FRAMEWORK")["REST_FRAMEWORK"]
    assert off["DEFAULT_THROTTLE_CLASSES"] == []  # type: ignore[index]
    assert on["DEFAULT_THROTTLE_RATES"] == {"address": "120/min"}  # type: ignore[index]


def test_a_jobs_lease_outlives_the_hardest_time_limit() -> None:
    found = settings_with("JOB_LEASE_SECONDS", "CELERY_TASK_TIME_LIMIT")
    assert found["JOB_LEASE_SECONDS"] > found["CELERY_TASK_TIME_LIMIT"]  # type: ignore[operator]


def test_celery_is_not_even_loaded_without_a_broker() -> None:
    done = subprocess.run(
        [sys.executable, "-c", "import django, sys; django.setup(); import config.urls; "
         "print(sorted({'celery', 'kombu', 'scipy', 'numpy'} & set(sys.modules)))"],
        env=clean_environment(DJANGO_SETTINGS_MODULE="config.settings"),
        cwd=ROOT, capture_output=True, text=True, check=True,
    )  # fmt: skip
    assert done.stdout.strip() == "[]"
