"""A real browser on a real server: the system's Chromium, and nothing from outside."""

from __future__ import annotations

import os
import shutil
import threading
from collections.abc import Callable, Iterator
from typing import Any

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, BrowserContext, Page, sync_playwright
from pytest_django.live_server_helper import LiveServer

from intake import jobs
from tests.servers import program

FLAGS = [
    "--disable-gpu",
    "--disable-quic",
    "--disable-dev-shm-usage",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1, EXCLUDE localhost",
]
PHONE = {
    "viewport": {"width": 360, "height": 780},
    "is_mobile": True,
    "has_touch": True,
    "service_workers": "allow",
}
DESK = {"viewport": {"width": 1280, "height": 900}}
WCAG = ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    for item in items:
        if "tests/browser/" in item.nodeid:
            item.add_marker(pytest.mark.e2e)
            item.add_marker(pytest.mark.django_db(transaction=True))


def _chromium() -> str:
    names = ("chromium", "chromium-browser", "google-chrome")
    return next(filter(None, map(shutil.which, names)), None) or program(
        "chromium", package="chromium"
    )


@pytest.fixture(scope="session")
def browser() -> Iterator[Browser]:
    """The system's Chromium, headless."""
    # Playwright keeps an event loop running in this thread; Django would then refuse to
    # talk to the database from it.
    os.environ["DJANGO_ALLOW_ASYNC_UNSAFE"] = "true"
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=_chromium(), args=FLAGS)
        yield browser
        browser.close()
    del os.environ["DJANGO_ALLOW_ASYNC_UNSAFE"]


class Watched:
    """What must not happen on any page: script errors, CSP violations, requests to outside."""

    def __init__(self, page: Page, home: str) -> None:
        self.faults: list[str] = []
        page.on("pageerror", lambda error: self.faults.append(f"script: {error}"))
        page.on("console", lambda message: self._console(message.type, message.text))
        page.on("request", lambda request: self._request(request.url, home))

    def _console(self, kind: str, text: str) -> None:
        if kind == "error" and "Failed to load resource" not in text:
            self.faults.append(f"console: {text}")

    def _request(self, url: str, home: str) -> None:
        if not url.startswith((home, "data:", "blob:", "about:")):
            self.faults.append(f"asked outside: {url}")


OpenPage = Callable[..., Page]


@pytest.fixture
def open_page(browser: Browser, live_server: LiveServer) -> Iterator[OpenPage]:
    """``open_page("/desk/", **DESK)``: a page of its own; any fault in it fails the test."""
    contexts: list[BrowserContext] = []
    watched: list[Watched] = []

    def start(path: str = "/", *, cookies: list[Any] | None = None, **options: Any) -> Page:
        context = browser.new_context(base_url=live_server.url, **(options or PHONE))
        context.set_default_timeout(10_000)
        contexts.append(context)
        if cookies:
            context.add_cookies(cookies)
        page = context.new_page()
        watched.append(Watched(page, live_server.url))
        page.goto(path)
        return page

    yield start
    for context in contexts:
        context.close()
    assert [fault for one in watched for fault in one.faults] == []


@pytest.fixture
def phone(open_page: OpenPage) -> Page:
    """The first page on a phone of 360 px."""
    return open_page("/", **PHONE)


@pytest.fixture
def signed_in(live_server: LiveServer, client: Any) -> Callable[[Any], list[dict[str, str]]]:
    """``open_page("/desk/", cookies=signed_in(user), **DESK)``: no password to type."""

    def cookies(user: Any) -> list[dict[str, str]]:
        client.force_login(user, backend="django.contrib.auth.backends.ModelBackend")
        value = client.cookies["sessionid"].value
        return [{"name": "sessionid", "value": value, "url": live_server.url}]

    return cookies


def _found(page: Page, rules: dict[str, Any]) -> list[str]:
    """What axe says against a page, by these rules."""
    found = Axe().run(page, options={"runOnly": rules}).response["violations"]
    return [f"{v['id']}: {v['help']} {[n['target'] for n in v['nodes']]}" for v in found]


@pytest.fixture
def barrier_free() -> Callable[[Page], None]:
    """``barrier_free(page)``: no finding of axe at WCAG 2.2 AA, in light and in dark, and nothing
    runs off sideways."""

    def check(page: Page) -> None:
        page.wait_for_load_state()
        assert _found(page, {"type": "tag", "values": WCAG}) == [], page.url
        # In the other light only colours are other ones.
        page.emulate_media(color_scheme="dark")
        assert _found(page, {"type": "rule", "values": ["color-contrast"]}) == [], page.url
        page.emulate_media(color_scheme="light")
        # Against the screen, not the window: a phone's window grows with a page that is too wide.
        screen = page.viewport_size
        assert screen
        wide = page.evaluate("document.documentElement.scrollWidth") - screen["width"]
        assert wide <= 0, f"{page.url} is {wide} px wider than the screen"

    return check


@pytest.fixture
def job_thread(live_server: LiveServer) -> Iterator[None]:
    """The embedded job thread beside the live server, as in a real start."""
    stop = threading.Event()
    thread = jobs.start_thread(stop)
    yield
    stop.set()
    if thread:
        thread.join(10)
