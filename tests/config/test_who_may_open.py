"""Every address and whom it lets in. An address that is in no table fails here."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from django.conf import settings
from django.contrib import admin
from django.contrib.auth.models import User
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import URLPattern, get_resolver, reverse
from django.utils import timezone

from catalog.domain.lengths import inches
from catalog.imports.models import PartImport
from catalog.models import Part
from catalog.pieces.paper import read_scan
from catalog.pieces.services import Delivered, receive_goods
from intake.customers.models import Merge
from intake.models import Photo, Submission
from quotes.cases.models import Case
from quotes.insight.pages.all_of_them import QUESTIONS
from quotes.models import AuditCall, CauseAlarm
from quotes.replay.models import Replay
from quotes.services import issue_quote
from staff.seats import services as seats
from staff.seats.selectors import open_seats
from tests.intake.desk_given import stock_the_shelf
from tests.quotes.given import a_submission
from tests.staff.given import CODE, LOGIN, PASSWORD, UNLOCK, a_member, logged_in, with_second

pytestmark = pytest.mark.django_db
GROUPS = ("machinist", "counter", "manager")
ALL, COUNTER, MANAGER = frozenset(GROUPS), frozenset(GROUPS[1:]), frozenset(GROUPS[2:])
SHOP = frozenset({"machinist", "manager"})

# Customers, programs and doors: nobody needs to be logged in.
PUBLIC = frozenset(
    [
        *("health-live", "health-ready", "set_language", "openapi", "api-docs"),
        *("api-read-length", "api-check", "api-submissions", "api-nothing", "standards"),
        *("measure", "review", "read-back", "guided", "guided-questions", "hand-over"),
        *("handed", "service-worker", "web-manifest", "know-index", "know", "measuring-sheet"),
        *("gauges", "status", "second-reading", "answer", "fit", "renew-link", "link-asked"),
        *("quiet", "quote-pdf", "accept", "decline", "photo-add", "photo", "photo-small"),
        *("passport", "passport-hours", "passport-again"),
        *("bundle", "bundle-accept", "bundle-pdf", "bundle-boat-pdf"),
        *("photo-remove", "choose", "login", "logout", "second", "unlock", "lock"),
    ]
)
# Pages of the staff that are opened: who may.
OPENED = {
    **dict.fromkeys(("my-account", "my-password", "my-second", "unlock-held"), ALL),
    **dict.fromkeys(("catalog", "catalog-csv", "part-changes", "checks"), ALL),
    **dict.fromkeys(("prices", "rates"), ALL),
    **dict.fromkeys(("customer-terms",), COUNTER),
    **dict.fromkeys(("staff-photo", "staff-photo-small", "submission", "quote-state"), ALL),
    **dict.fromkeys(("call-queue", "calls-made", "today", "quotes-today"), ALL),
    **dict.fromkeys(("requests",), ALL),
    **dict.fromkeys(("desk", "desk-draft", "desk-find", "record-call", "limits"), COUNTER),
    **dict.fromkeys(("requests-csv",), COUNTER),
    **dict.fromkeys(("audit-calls", "audit-call"), COUNTER),
    "cause-alarms": MANAGER,
    **dict.fromkeys(("customers", "customer", "boat", "job", "desk-link"), COUNTER),
    **dict.fromkeys(("cases", "open-case", "silent", "desk-fit"), COUNTER),
    **dict.fromkeys(("case", "own-parts", "awaited-parts"), ALL),
    **dict.fromkeys(("rework",), SHOP),
    **dict.fromkeys(("merge-customers", "merge-boats", "desk-issue"), COUNTER),
    **dict.fromkeys(("bundles", "desk-bundle"), COUNTER),
    "calendar": ALL,
    **dict.fromkeys(("payments", "invoices", "invoices-csv", "invoice-make"), COUNTER),
    **dict.fromkeys(("invoice", "invoice-pdf", "invoice-csv"), COUNTER),
    **dict.fromkeys(("shop", "cut-sheet"), SHOP),
    **dict.fromkeys(
        ("shop-shaft", "shop-parcel", "packing-list", "fitting-card", "shaft-tag"), ALL
    ),
    **dict.fromkeys(("pieces", "pieces-csv", "piece", "piece-certificate"), ALL),
    **dict.fromkeys(("goods-in", "bars", "reorder", "reorder-csv"), SHOP),
    "piece-correct": MANAGER,
    **dict.fromkeys(("insights", "insights-csv", "erase-customer"), MANAGER),
    **dict.fromkeys(("imports", "import", "import-faults", "catalog-xlsx"), MANAGER),
    **dict.fromkeys(("wording", "word-question"), MANAGER),
    **dict.fromkeys(("part-new", "part-edit"), MANAGER),
    **dict.fromkeys(("costs", "all-changes", "all-changes-csv"), MANAGER),
    **dict.fromkeys(("insight-overview", "insight-behind", "insight-csv", "insight-xlsx"), MANAGER),
    **dict.fromkeys([f"insight-{question.slug}" for question in QUESTIONS], MANAGER),
    **dict.fromkeys(("staff-people", "staff-person"), MANAGER),
    **dict.fromkeys(("replays", "replay", "replay-ask", "replay-compare"), MANAGER),
    **dict.fromkeys(("replay-progress", "replay-csv"), MANAGER),
}
# What only a form or a script asks for, since something is changed by it or much is sent along.
SENT = {
    **dict.fromkeys(("my-end-others", "my-end-session", "desk-here"), ALL),
    **dict.fromkeys(("desk-keep", "desk-save", "desk-put-away", "desk-reopen"), COUNTER),
    **dict.fromkeys(("take-up", "blind-reading", "call-claim", "call-keep"), COUNTER),
    **dict.fromkeys(("call-give-back", "call-take-over", "part-records"), COUNTER),
    **dict.fromkeys(("desk-read-back", "desk-price", "desk-choose"), COUNTER),
    **dict.fromkeys(("desk-yes", "desk-no", "desk-cancel", "desk-requote"), COUNTER),
    **dict.fromkeys(("desk-mail-again", "desk-bundle-link"), COUNTER),
    **dict.fromkeys(("export-customer", "limits-adopt", "limits-learn"), MANAGER),
    **dict.fromkeys(("prices-set", "prices-table", "rates-adopt"), MANAGER),
    **dict.fromkeys(("customer-terms-agree",), MANAGER),
    **dict.fromkeys(("bars-hold", "reorder-hold"), SHOP),
    "reorder-point": MANAGER,
    **dict.fromkeys(("shop-move", "shop-back", "shop-inspect", "shop-sign", "shop-send"), SHOP),
    **dict.fromkeys(("parcel-pack", "parcel-back", "parcel-send"), SHOP),
    **dict.fromkeys(("shop-release", "shop-call-off", "shop-word"), COUNTER),
    **dict.fromkeys(("staff-make", "staff-change", "staff-end-session"), MANAGER),
    "staff-second-rule": MANAGER,
    **dict.fromkeys(("calendar-close", "calendar-open", "calendar-week"), MANAGER),
    "invoice-credit": MANAGER,
    "answer-alarm": MANAGER,
    **dict.fromkeys(("replay-cancel", "replay-adopt"), MANAGER),
    **dict.fromkeys(("costs-adopt", "part-remove"), MANAGER),
    **dict.fromkeys(("import-columns", "import-take", "import-undo"), MANAGER),
}
STAFF = OPENED | SENT
# What is asked for here without its second half: the other record, the order's number, the call.
NAMING_NOTHING = {
    "desk-bundle": 404,
    "desk-draft": 404,
    "job": 404,
    **dict.fromkeys(("invoice", "invoice-pdf", "invoice-csv", "invoice-make"), 404),
    "merge-customers": 302,
    "merge-boats": 302,
}
# Of customers and doors: what a form sends.
SENT_BY_ANYBODY = frozenset(
    [
        *("set_language", "read-back", "second-reading", "answer", "fit", "renew-link", "accept"),
        *("passport-hours", "passport-again"),
        "bundle-accept",
        *("decline", "photo-add", "photo-remove", "choose", "logout", "lock"),
    ]
)
# Programs log in to nothing, so there is nothing to be forged in their name; mail programs post
# what a signed link says ("quiet").
PROGRAMS = frozenset(
    [
        *("openapi", "api-docs", "api-read-length", "api-check", "api-submissions"),
        *("api-nothing", "hand-over", "handed", "quiet"),
    ]
)


def patterns(resolver: Any = None, before: str = "") -> Iterator[tuple[str, URLPattern]]:
    """Every address of the site but the admin's, with its pattern."""
    for one in (resolver or get_resolver()).url_patterns:
        address = before + str(one.pattern)
        if isinstance(one, URLPattern):
            yield address, one
        elif address != "admin/":
            yield from patterns(one, address)


def names() -> list[str]:
    return [one.name or "" for address, one in patterns() if not address.startswith("admin/")]


def test_every_address_is_in_one_table() -> None:
    tables = [*PUBLIC, *OPENED, *SENT]
    assert sorted(names()) == sorted(tables)


def test_pages_of_the_staff_lie_where_a_locked_desk_answers_nothing() -> None:
    for address, one in patterns():
        is_below = f"/{address}".startswith(settings.STAFF_PAGES)
        is_door = one.name is None or one.name == "unlock-held"  # asks for an open seat itself
        assert is_door or is_below == (one.name in STAFF), address
        if one.name in STAFF:
            assert f"/{address}".startswith(settings.ENGLISH_PAGES), address


# --- Who comes in ---------------------------------------------------------------------


@pytest.fixture
def things() -> dict[str, Any]:
    """One of everything that an address can name."""
    stock_the_shelf()
    submission = a_submission()
    issue_quote(submission_id=submission.pk)
    AuditCall.objects.create(submission=submission)
    photo = Photo.objects.create(
        submission=submission,
        ident="p" * 22,
        width=8,
        height=8,
        content=b"jpeg",
        small=b"jpeg",
        sent_sha256="0" * 64,
    )
    somebody = a_member("somebody")
    logged_in(somebody)
    boat = submission.boat_id or 0
    merge = Merge.objects.create(
        kind="boat", kept=boat, gone=boat, by=somebody, undone_at=timezone.now()
    )
    certificate = read_scan(b"%PDF-1.7 a certificate")
    goods = Delivered("DN 1", (inches(144),), certificate=certificate)
    bar = receive_goods(part=Part.objects.get(code="BH-1000"), goods=goods).pieces[0]
    return {
        "piece": bar.pk,
        "reference": submission.reference,
        "slug": "fit",
        "import": PartImport.objects.create(name="parts", content=b"code", by=somebody).pk,
        "place": 1,
        "version": 1,
        "ident": photo.ident,
        "code": Part.objects.values_list("code", flat=True)[0],
        "what": "close",
        "seat": open_seats(somebody)[0].pk,
        "customer": submission.customer_id,
        "boat": boat,
        "merge": merge.pk,
        "person": somebody.pk,
        "replay_key": Replay.objects.create(
            name="Spring",
            first_day=timezone.localdate(),
            last_day=timezone.localdate(),
            base_name="2026.1",
            by=somebody,
            ask_key="one",
            state="done",
        ).pk,
        "alarm_key": CauseAlarm.objects.create(
            cause="G-BLADE",
            why="often",
            seen=3,
            first_on=timezone.localdate(),
            last_on=timezone.localdate(),
        ).pk,
        "case_number": Case.objects.create(
            quote=submission.quotes.get(), number="C-2026-0001", opened_as="staff"
        ).number,
    }


def address_of(name: str, things: dict[str, Any]) -> str:
    """The address with one of these in it."""
    pattern = next(one for _, one in patterns() if one.name == name)
    wanted = [*pattern.pattern.converters]
    given = {part: things.get(part) for part in wanted}
    if name == "word-question":
        given["slug"] = "gap_now"
    if "pk" in given:
        kind = "boat" if "boat" in name else "merge" if name == "part-records" else "customer"
        kind = "import" if name.startswith("import") else kind
        given["pk"] = things["person" if name.startswith("staff-") else kind]
    return reverse(name, kwargs=given)


def ask(client: Client, name: str, things: dict[str, Any]) -> Any:
    how = client.get if name in OPENED else client.post
    return how(address_of(name, things))


def is_led_to(answer: Any, door: str) -> bool:
    return answer.status_code == 302 and answer["Location"].split("?")[0] == door


def test_a_stranger_is_led_to_the_login_on_every_page(things: dict[str, Any]) -> None:
    wrong = [name for name in STAFF if not is_led_to(ask(Client(), name, things), LOGIN)]
    assert wrong == []


@pytest.mark.parametrize("group", GROUPS)
def test_each_group_opens_its_own_pages_and_no_other(group: str, things: dict[str, Any]) -> None:
    """What is sent here is empty, so whoever may send it is told what is wrong with it."""
    person = a_member("tester", group)
    for name, groups in STAFF.items():
        answer = ask(logged_in(person), name, things)
        led_away = is_led_to(answer, LOGIN) or is_led_to(answer, UNLOCK)
        assert (answer.status_code != 403 and not led_away) == (group in groups), name
        if name in OPENED and group in groups and name != "unlock-held":
            assert answer.status_code == NAMING_NOTHING.get(name, 200), name


def test_half_a_login_opens_nothing(things: dict[str, Any]) -> None:
    person = a_member("percival", "manager")
    with_second(person)
    half = Client()
    answer = half.post(LOGIN, {"username": "percival", "password": PASSWORD})
    assert answer["Location"] == CODE
    assert [name for name in STAFF if not is_led_to(ask(half, name, things), LOGIN)] == []


def test_a_locked_desk_opens_nothing(things: dict[str, Any]) -> None:
    person = a_member("percival", "manager")
    client = logged_in(person)
    seats.lock(open_seats(person)[0].pk)
    wrong = [
        name
        for name in STAFF
        if not is_led_to(ask(client, name, things), LOGIN if name == "unlock-held" else UNLOCK)
    ]
    assert wrong == []


def test_an_ended_login_opens_nothing(things: dict[str, Any]) -> None:
    person = a_member("percival", "manager")
    wrong = []
    for name in STAFF:
        client = logged_in(person)
        seats.end_all(person, why="over")
        if not is_led_to(ask(client, name, things), LOGIN):
            wrong.append(name)
    assert wrong == []


# --- What changes something -----------------------------------------------------------


def test_what_is_sent_is_never_asked_for(things: dict[str, Any]) -> None:
    client = logged_in(a_member("percival", "manager"))
    for name in SENT:
        assert client.get(address_of(name, things)).status_code == 405, name
    things |= {"token": Submission.objects.get().token, "version": 1}
    for name in SENT_BY_ANYBODY:
        if name == "set_language":  # Django's own: leads back and changes nothing
            assert "set-cookie" not in client.get(address_of(name, things)).headers
        else:
            assert client.get(address_of(name, things)).status_code == 405, name


def test_nothing_is_sent_in_somebody_elses_name(things: dict[str, Any]) -> None:
    """Without the page's token no form is heard, neither from the staff nor from customers."""
    things |= {"token": Submission.objects.get().token, "version": 1, "slug": "bearing"}
    client = logged_in(a_member("percival", "manager"))
    client.handler.enforce_csrf_checks = True
    for name in names():
        if name not in PROGRAMS:
            assert client.post(address_of(name, things)).status_code == 403, name


def test_looking_changes_nothing_but_who_looks(things: dict[str, Any]) -> None:
    client = logged_in(a_member("percival", "manager"))
    for name in OPENED:
        with CaptureQueriesContext(connection) as asked:
            client.get(address_of(name, things))
        wrote = [
            each["sql"]
            for each in asked.captured_queries
            if each["sql"].startswith(("INSERT", "UPDATE", "DELETE"))
            and not any(own in each["sql"] for own in ("intake_pageopen", "staff_seat"))
        ]
        assert wrote == [], name


# --- What the answers carry -----------------------------------------------------------


def test_no_page_of_the_staff_is_kept_by_anybody_on_the_way(things: dict[str, Any]) -> None:
    client = logged_in(a_member("percival", "manager"))
    for name in STAFF:
        answer = ask(client, name, things)
        assert "no-store" in answer.get("Cache-Control", ""), name
        own = "default-src 'none'" if "photo" in name else "default-src 'self'"
        assert own in answer["Content-Security-Policy"], name
        assert "photo" in name or "unsafe" not in answer["Content-Security-Policy"], name


def test_no_private_page_of_a_customer_is_kept_or_told_on(things: dict[str, Any]) -> None:
    things |= {"token": Submission.objects.get().token, "version": 1}
    private = [one.name for _, one in patterns() if "token" in one.pattern.converters]
    assert "status" in private
    for name in private:
        address = address_of(str(name), things)
        for answer in (Client().get(address), Client().post(address)):
            tells = answer.status_code not in (400, 404, 405)  # those pages say nothing at all
            if tells and not name.startswith("photo"):
                assert "no-store" in answer.get("Cache-Control", ""), (name, answer.status_code)
            if name.startswith("photo") and answer.status_code == 200:
                assert "private" in answer["Cache-Control"], name
            assert answer["Referrer-Policy"] in ("no-referrer", "same-origin"), name


# --- The admin ------------------------------------------------------------------------


def test_the_admin_adds_changes_and_deletes_nothing_but_parts(rf: Any) -> None:
    """Accounts, trails and histories have their own doors, or none."""
    request = rf.get("/")
    request.user = User(is_superuser=True, is_staff=True)
    for model, page in admin.site._registry.items():
        rights = page.get_model_perms(request)
        changed = {right for right in ("add", "change", "delete") if rights[right]}
        assert (changed != set()) == (model._meta.label == "catalog.Part"), model
