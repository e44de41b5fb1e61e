"""Walking the guided path in a browser: what a person taps and types, screen by screen."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from playwright.sync_api import Page, expect

GUIDED_PHONE = {
    "viewport": {"width": 360, "height": 740},
    "is_mobile": True,
    "has_touch": True,
    "service_workers": "allow",
}
TYPED = {
    "boat_name_and_station": {"answers.boat_name_and_station.name": "Biscuit Barrel"},
    "flange_od": {"answers.flange_od.text": "4"},
    "face_to_strut_aft": {"answers.face_to_strut_aft.text": "44 1/8"},
    "face_to_strut_aft.again": {"answers.face_to_strut_aft.again.text": "44 3/16"},
    "gap_now": {"answers.gap_now.text": "3/4"},
    "hub_length": {"answers.hub_length.text": "2 15/16"},
    "dia_clean": {"answers.dia_clean.text": "1"},
    "shell_od": {"answers.shell_od.text": "1 1/4"},
    "bearing_length": {"answers.bearing_length.text": "2"},
    "old_length_face_to_thread": {"answers.old_length_face_to_thread.text": "49"},
    "contact": {"contact.name": "Wilmot Tarpley", "contact.phone": "+1 202 555 0100"},
}
CHOSEN = {
    "wants": (("wants", "shaft"),),
    "boat_name_and_station": (("answers.boat_name_and_station.station", "single"),),
    "drive_layout": (("answers.drive_layout", "inline"),),
    "flange_direction": (("answers.flange_direction", "aft"),),
    "face_to_strut_how": (("answers.face_to_strut_aft.method", "rod"),),
    "face_to_strut_aft": (("answers.face_to_strut_aft.text:unit", "in"),),
    "gap_now": (("answers.gap_now.method", "drill_shank"), ("answers.coupling_state.is", "tight")),
    "hub_length": (("answers.hub_length.method", "caliper"),),
    "dia_clean": (("answers.dia_clean.text:unit", "in"), ("answers.dia_clean.method", "caliper")),
    "changed_since_shaft": (("answers.changed_since_shaft", "nothing"),),
    "water": (("answers.water.kind", "salt"),),
}


def start_a_boat(page: Page) -> None:
    """From the list of boats to the first question."""
    page.get_by_role("button", name="Measure a").or_(
        page.get_by_role("button", name="Measure another")
    ).first.click()
    at(page, "wants")


def at(page: Page, slug: str) -> None:
    """That question is on the screen, with its heading in focus."""
    expect(page.locator("#screen")).to_have_attribute("data-slug", slug)
    expect(page.locator("#screen h1")).to_be_focused()


def slug_of(page: Page) -> str:
    return page.locator("#screen").get_attribute("data-slug") or ""


def answer(page: Page, slug: str) -> None:
    """Fill in one screen of the clean boat."""
    for name, value in CHOSEN.get(slug, ()):
        tick(page, name, value)
    for name, text in TYPED.get(slug, {}).items():
        page.fill(f'[name="{name}"]', text)


def tick(page: Page, name: str, value: str) -> None:
    """Choose one, clear of the bar that stays at the bottom."""
    box = page.locator(f'[name="{name}"][value="{value}"]')
    box.evaluate("box => box.scrollIntoView({block: 'center'})")
    box.check()


def go_on(page: Page) -> None:
    page.locator(".moving button[type=submit]").click()


def walk(
    page: Page, *, until: str = "", seen: Callable[[str], None] | None = None
) -> Iterator[str]:
    """Answer screen after screen; stops before ``until``, or at the review. Yields each slug."""
    last = ""
    for _screen in range(30):
        page.wait_for_function(
            "last => document.querySelector('dl.review') ||"
            " (document.querySelector('#screen').dataset.slug ?? last) !== last",
            arg=last,
        )
        slug = slug_of(page)
        if not slug or slug == until:
            return
        if last:  # at a screen one came to, not at one that was typed in already
            expect(page.locator("#screen h1")).to_be_focused()
        answer(page, slug)
        if seen:
            seen(slug)
        yield slug
        go_on(page)
        if page.locator(".compare .asked").count():
            go_on(page)
        elif page.locator("#notices .warning").count():
            go_on(page)  # nothing answered here, and that is meant
        last = slug


def to_review(page: Page) -> list[str]:
    slugs = list(walk(page))
    expect(page.get_by_role("heading", level=1)).to_have_text("As we understood you")
    return slugs


def ready_for_no_signal(page: Page) -> None:
    """The worker holds all it needs and answers for this page."""
    page.evaluate("navigator.serviceWorker.ready.then(() => null)")
    page.wait_for_function("navigator.serviceWorker.controller !== null")


def drafts(page: Page) -> list[dict[str, object]]:
    """What this phone keeps."""
    kept: list[dict[str, object]] = page.evaluate("globalThis.fairgapStore.drafts()")
    return kept


def kept_on_the_phone(page: Page, text: str) -> None:
    """What was typed has reached the store: a moment after the key, not with it."""
    for _moment in range(100):
        if text in str(drafts(page)):
            return
        page.wait_for_timeout(50)
    raise AssertionError(f"{text!r} was not kept")


def finish(page: Page) -> None:
    """From the review, send; lands at the list of boats."""
    page.locator(".moving button.button:not(.quiet)").click()
    expect(page.get_by_role("heading", level=1)).to_have_text("Your boats on this phone")


def state_is(page: Page, words: str) -> None:
    """The one boat of this phone says so."""
    expect(page.locator(".boats .state")).to_contain_text(words, timeout=20_000)
