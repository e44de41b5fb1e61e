"""Which language a page speaks, who decides, and what is remembered."""

from __future__ import annotations

import pytest
from django.conf import settings
from django.test import Client
from django.urls import URLPattern, get_resolver, reverse
from django.utils import formats, translation

from tests.quotes.given import a_quoter

pytestmark = pytest.mark.django_db
COOKIE = settings.LANGUAGE_COOKIE_NAME


def language(client: Client, path: str = "/", **headers: str) -> str:
    """What a page says its language is; its head and its markup must agree."""
    answer = client.get(path, headers=headers)
    said = answer["Content-Language"]
    assert f'<html lang="{said}">' in answer.content.decode()
    return str(said)


@pytest.mark.parametrize(
    ("accepts", "spoken"),
    [
        ("es", "es"),
        ("es-MX,es;q=0.9,en;q=0.5", "es"),
        ("en-GB,en;q=0.9,es;q=0.8", "en"),
        ("de,fr;q=0.8", "en"),
        ("de,es;q=0.4", "es"),
        ("", "en"),
        ("*", "en"),
        ("x" * 5000, "en"),
    ],
)
def test_the_browser_is_listened_to(client: Client, accepts: str, spoken: str) -> None:
    assert language(client, **{"accept-language": accepts}) == spoken


def test_the_cookie_is_stronger(client: Client) -> None:
    client.cookies[COOKIE] = "es"
    assert language(client, **{"accept-language": "en"}) == "es"


@pytest.mark.parametrize("wrong", ["de", "es' OR 1", "../../es", "\u00e9", ""])
def test_a_cookie_that_names_none_of_ours_is_ignored(client: Client, wrong: str) -> None:
    client.cookies[COOKIE] = wrong
    assert language(client) == "en"


def test_the_address_is_strongest_and_is_remembered(client: Client) -> None:
    client.cookies[COOKIE] = "en"
    assert language(client, "/?lang=es", **{"accept-language": "en"}) == "es"
    assert language(client) == "es"
    assert language(client, "/?lang=de") == "es"


def test_a_paper_in_a_language_is_not_a_wish_for_all(client: Client) -> None:
    answer = client.get(f"{reverse('gauges')}?lang=es")
    assert answer["Content-Language"] == "es"
    assert COOKIE not in answer.cookies


def test_the_choice_is_a_form_that_works_without_script(client: Client) -> None:
    page = client.get("/know/before-you-start/").content.decode()
    assert 'href="?lang=es"' in page
    page = client.get("/?draft=none").content.decode()
    assert '<input type="hidden" name="next" value="/?draft=none">' in page
    answer = client.post("/language/", {"language": "es", "next": "/?draft=none"})
    assert (answer.status_code, answer["Location"]) == (302, "/?draft=none")
    cookie = answer.cookies[COOKIE]
    assert (cookie.value, cookie["httponly"], cookie["samesite"]) == ("es", True, "Lax")
    assert int(cookie["max-age"]) == settings.LANGUAGE_COOKIE_AGE
    assert bool(cookie["secure"]) == settings.LANGUAGE_COOKIE_SECURE
    assert language(client) == "es"


def test_the_way_back_has_no_language_in_it(client: Client) -> None:
    """Else the address would overrule the choice that was just made."""
    page = client.get("/?lang=es&draft=x").content.decode()
    assert 'name="next" value="/?draft=x"' in page


@pytest.mark.parametrize("away", ["https://example.org/", "//example.org", "javascript:alert(1)"])
def test_nobody_is_sent_away(client: Client, away: str) -> None:
    answer = client.post("/language/", {"language": "es", "next": away})
    assert answer["Location"] == "/"


def test_choosing_needs_our_own_form() -> None:
    strict = Client(enforce_csrf_checks=True)
    assert strict.post("/language/", {"language": "es", "next": "/"}).status_code == 403


def test_asking_changes_nothing(client: Client) -> None:
    answer = client.get("/language/?language=es&next=/")
    assert COOKIE not in answer.cookies


# --- Who stays English --------------------------------------------------------------------

SPEAKS = {  # every page a customer may open, by its URL name
    *("measure", "review", "read-back", "guided", "guided-questions", "hand-over", "handed"),
    *("service-worker", "web-manifest", "know-index", "know", "measuring-sheet", "gauges"),
    *("photo", "photo-small", "photo-add", "photo-remove", "status", "second-reading", "answer"),
    *("fit", "renew-link", "link-asked", "quiet", "quote-pdf", "accept", "decline"),
    *("choose", "bundle", "bundle-accept", "bundle-pdf", "bundle-boat-pdf"),
    *("passport", "passport-hours", "passport-again"),
    "set_language",
}


def every_address() -> dict[str, str]:
    """URL name -> path, of our own pages."""
    found: dict[str, str] = {}

    def walk(patterns: list[object], before: str) -> None:
        for one in patterns:
            path = before + str(one.pattern)  # type: ignore[attr-defined]
            if isinstance(one, URLPattern):
                found[str(one.name)] = f"/{path}"
            elif not path.startswith("admin/"):
                walk(one.url_patterns, path)  # type: ignore[attr-defined]

    walk(get_resolver().url_patterns, "")
    return found


def test_every_page_is_a_customers_or_english() -> None:
    """A new page speaks Spanish, or its address stands among the English ones."""
    for name, path in every_address().items():
        assert (name in SPEAKS) != path.startswith(settings.ENGLISH_PAGES), f"{name}: {path}"


def test_the_staff_read_english(client: Client) -> None:
    client.cookies[COOKIE] = "es"
    page = client.get("/accounts/login/").content.decode()
    assert '<html lang="en">' in page
    assert 'action="/language/"' not in page
    client.force_login(a_quoter(), backend="django.contrib.auth.backends.ModelBackend")
    assert language(client, "/desk/calls/?lang=es", **{"accept-language": "es"}) == "en"


def test_programs_read_english(client: Client) -> None:
    body = {"text": "4 10 5/8", "question": "gap_now", "unit": None}
    headers = {"accept-language": "es"}
    said = client.post("/api/v1/read-length/", body, "application/json", headers=headers).json()
    assert said["message"] == "Are these feet and inches? Please add their marks."


def test_pages_tell_caches_what_they_go_by(client: Client) -> None:
    vary = client.get("/")["Vary"]
    assert "Accept-Language" in vary
    assert "Cookie" in vary


@pytest.mark.parametrize("path", ["/nothing-here/", "/s/nothing/"])
def test_a_page_that_is_not_there_is_not_there_in_both(client: Client, path: str) -> None:
    assert "There is no such page" in client.get(path).content.decode()
    spanish = client.get(path, headers={"accept-language": "es"}).content.decode()
    assert "No hay tal página" in spanish
    assert '<html lang="es">' in spanish


# --- Dates --------------------------------------------------------------------------------


def test_dates_as_each_language_writes_them() -> None:
    from datetime import date

    day = date(2026, 11, 25)
    with translation.override("en"):
        assert formats.date_format(day, "DATE_FORMAT") == "25 November 2026"
    with translation.override("es"):
        assert formats.date_format(day, "DATE_FORMAT") == "25 de noviembre de 2026"
