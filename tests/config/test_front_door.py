"""What every request meets before a room does."""

from __future__ import annotations

import logging
import re
from typing import Any

import pytest
from django.http import HttpRequest, HttpResponse
from django.test import Client, RequestFactory
from django.urls import path

from config.middleware import ClientAddress, WithoutLinks, WithRequestId
from config.urls import *  # noqa: F403  (this file is a URL list too: the site's, and one page that breaks)
from config.urls import urlpatterns as site


def breaks(request: HttpRequest) -> HttpResponse:
    raise ZeroDivisionError("a bug")


urlpatterns = [path("breaks/", breaks), path("api/v1/breaks/", breaks), *site]
handler500 = "config.views.server_error"


def csp(response: Any) -> dict[str, str]:
    lines = response["Content-Security-Policy"].split(";")
    return {line.split()[0]: " ".join(line.split()[1:]) for line in lines if line.strip()}


# --- Health ---------------------------------------------------------------------------


def test_live_asks_nobody(client: Client) -> None:
    assert client.get("/health/live").content == b"ok"


@pytest.mark.django_db
def test_ready_knows_the_database(client: Client) -> None:
    response = client.get("/health/ready")
    assert (response.status_code, response.json()) == (
        200, {"database": "ok", "broker": "embedded"},
    )  # fmt: skip


@pytest.mark.django_db
def test_a_missing_broker_only_delays_work(client: Client, settings: Any) -> None:
    settings.REDIS_URL = "redis://127.0.0.1:1/0"
    response = client.get("/health/ready")
    assert (response.status_code, response.json()["broker"]) == (200, "away")


@pytest.mark.django_db
def test_the_broker_is_asked(client: Client, settings: Any, redis: Any) -> None:
    _, settings.REDIS_URL = redis
    assert client.get("/health/ready").json()["broker"] == "ok"


@pytest.mark.django_db
@pytest.mark.parametrize(
    "address", ["/desk/FG-%00/", "/catalog/changes/%00", "/s/%00/", "/guided/hand-over/%00/"]
)
def test_an_address_with_a_nul_is_nowhere(address: str, client: Client) -> None:
    assert client.get(address).status_code == 404


# --- The log ----------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ("Not Found: /s/Qm9hdEJvYXRCb2F0Qm9hdA-_/quote-1.pdf", "Not Found: /s/…/quote-1.pdf"),
        ("GET /quiet/MTI:1tQm9h:dEJvYXRCb2F0Qm9h/ HTTP/1.1", "GET /quiet/…/ HTTP/1.1"),
        ("GET /guided/hand-over/Qm9hdEJvYXRCb2F0Qm/", "GET /guided/hand-over/…/"),
        ("GET /know/bearing/ and /desk/FG-7XP8FD/", "GET /know/bearing/ and /desk/FG-7XP8FD/"),
    ],
)
def test_no_private_link_stands_in_the_log(said: str, told: str) -> None:
    line = logging.LogRecord("django.request", logging.WARNING, "", 0, "%s", (said,), None)
    assert WithoutLinks().filter(line)
    assert line.getMessage() == told


def test_every_line_of_the_log_goes_through_it(settings: Any) -> None:
    assert settings.LOGGING["handlers"]["err"]["filters"] == ["request", "links"]
    assert {"err"} == {
        name for each in settings.LOGGING["loggers"].values() for name in each.get("handlers", ())
    }


# --- The id of a request --------------------------------------------------------------


@pytest.mark.urls(__name__)
@pytest.mark.parametrize("address", ["/breaks/", "/api/v1/breaks/"])
def test_a_bug_says_the_number_that_finds_the_log(
    address: str, caplog: pytest.LogCaptureFixture, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(logging.getLogger("django"), "propagate", True)
    monkeypatch.setattr(caplog.handler, "filters", [WithRequestId()])
    response = Client(raise_request_exception=False).get(address)
    number = response["X-Request-ID"]
    assert {vars(record)["request_id"] for record in caplog.records} == {number}
    assert response.status_code == 500
    assert re.fullmatch("[0-9a-f]{8}", number)
    assert number in response.content.decode()
    assert "a bug" not in response.content.decode()
    if address.startswith("/api/"):
        assert response["Content-Type"] == "application/problem+json"


def test_every_request_has_its_own_number(client: Client) -> None:
    numbers = {client.get("/health/live")["X-Request-ID"] for _ in range(20)}
    assert len(numbers) == 20


# --- Where a request comes from -------------------------------------------------------


@pytest.mark.parametrize(
    ("proxies", "forwarded", "seen"),
    [
        (0, "198.51.100.7", "127.0.0.1"),
        (1, "198.51.100.7", "198.51.100.7"),
        (1, "203.0.113.99, 198.51.100.7", "198.51.100.7"),
        (2, "203.0.113.99, 198.51.100.7, 10.0.0.2", "198.51.100.7"),
        (2, "198.51.100.7", "127.0.0.1"),
        (1, "", "127.0.0.1"),
    ],
)
def test_only_our_own_proxies_are_believed(
    proxies: int, forwarded: str, seen: str, settings: Any
) -> None:
    settings.PROXIES = proxies
    request = RequestFactory().get("/", headers={"X-Forwarded-For": forwarded})
    ClientAddress(lambda request: HttpResponse())(request)
    assert request.META["REMOTE_ADDR"] == seen


# --- What a browser may do ------------------------------------------------------------


@pytest.mark.django_db
def test_pages_may_load_nothing_from_elsewhere(client: Client) -> None:
    policy = csp(client.get("/accounts/login/"))
    assert policy["default-src"] == "'self'"
    assert policy["object-src"] == policy["frame-ancestors"] == "'none'"
    assert policy["base-uri"] == policy["form-action"] == "'self'"
    assert "unsafe" not in str(policy)


def test_only_the_api_pages_may_style_themselves(client: Client) -> None:
    policy = csp(client.get("/api/v1/docs/"))
    assert policy.pop("style-src") == "'self' 'unsafe-inline'"
    assert "unsafe" not in str(policy)


# --- Passwords ------------------------------------------------------------------------


@pytest.mark.django_db
@pytest.mark.parametrize("door", ["/accounts/login/", "/admin/login/"])
def test_five_wrong_passwords_close_the_door(
    door: str, client: Client, django_user_model: Any
) -> None:
    django_user_model.objects.create_user("maud", password="right", is_staff=True)
    answers = [
        client.post(door, {"username": "maud", "password": f"wrong {guess}"}).status_code
        for guess in range(5)
    ]
    assert answers == [200, 200, 200, 200, 429]
    right = client.post(door, {"username": "maud", "password": "right"})
    assert right.status_code == 429


@pytest.mark.django_db
def test_the_door_is_closed_for_one_name_only(
    client: Client, django_user_model: Any, settings: Any
) -> None:
    settings.LOGIN_REDIRECT_URL = "/health/live"
    for name in ("maud", "iolo"):
        django_user_model.objects.create_user(name, password="right")
    for guess in range(6):
        client.post("/accounts/login/", {"username": "maud", "password": f"wrong {guess}"})
    answer = client.post("/accounts/login/", {"username": "iolo", "password": "right"})
    assert answer.status_code == 302
