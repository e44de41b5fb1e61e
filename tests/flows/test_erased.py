"""A customer of whom everything is kept that can be: handed out whole, and erased whole.

Both databases are read table by table as they are, so a table that comes later is looked at too.
"""

from __future__ import annotations

import io
import json
from collections.abc import Callable
from datetime import timedelta
from decimal import Decimal
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.contrib.sessions.backends.db import SessionStore
from django.contrib.sessions.models import Session
from django.db import connection
from django.utils import timezone
from pypdf import PdfReader

from catalog.domain.lengths import inches
from intake.calling.claims import services as claims
from intake.calling.models import BlindReading, CallAlarm
from intake.calling.services import record_call
from intake.customers import handlers
from intake.customers.merging.services import merge_boats, merge_customers
from intake.customers.models import Boat, Customer, Merge
from intake.customers.privacy.selectors import everything_kept
from intake.customers.privacy.services import (
    EraseRefused,
    erase_customer,
    forget_what_is_due,
    note_handing_out,
)
from intake.customers.services import edit_customer
from intake.desk_drafts import services as drafts
from intake.desk_drafts.merging import Sent
from intake.finding.services import index_waiting
from intake.hand_over.services import hand_over
from intake.models import HandedDraft, Job, Submission
from intake.photos.models import Photo
from intake.records.models import ShaftFitted
from quotes import services as quotes
from quotes.bundles.models import Bundle
from quotes.bundles.services import issue_bundle
from quotes.cases import services as cases
from quotes.choosing.models import Choice
from quotes.choosing.services import choose
from quotes.inspecting.models import Inspection
from quotes.links import services as links
from quotes.links.models import Mail, NoReminders, OldLink
from quotes.models import AuditCall, CustomerTerms, CutSheet, Quote, QuoteDocument
from quotes.outcomes.models import Outcome
from quotes.outcomes.services import tell, tell_outcome
from quotes.passport.models import HoursReading
from quotes.receiving.services import Arrival, receive_unasked
from quotes.sending.models import Shipment
from quotes.shop.models import DeskWord, ShopMove
from quotes.terms.services import agree_terms
from staff.models import Change
from tests.intake.customers.given import ODILE, WILMOT, received, someone, supplied
from tests.intake.desk_given import stock_the_shelf
from tests.intake.photos.given import as_file as a_picture
from tests.quotes.given import ticked
from tests.quotes.shop.shafts import sent_with_words

pytestmark = pytest.mark.django_db
MAIL = "wilmot@example.net"
# What tells who it was, in every way it is written.
TELLING = (
    *("tarpley", "wilmot", "555 0100", "5550100", "example.net", "biscuit", "po 7741", "zx9qj"),
    "fedora",
)
# Tables that hold something of the kind, and where it is handed out; or why it is not.
HOLDING = {
    "intake_customer": "customer",
    "intake_boat": "boats",
    "intake_merge": "merges",
    "staff_change": "changes",
    "intake_submission": "requests",
    "intake_sheetversion": "requests",
    "intake_callrecord": "requests",
    "intake_event": "requests",
    "intake_blindreading": "requests",
    "intake_deskdraft": "calls_begun",
    "intake_handeddraft": "handed_on",
    "intake_shaftfitted": "boats",
    "quotes_quote": "quotes",
    "quotes_choice": "quotes",
    "quotes_outcome": "quotes",
    "quotes_notyetfitted": "quotes",
    "quotes_case": "quotes",
    "quotes_caseevent": "quotes",
    "quotes_casecost": "quotes",
    "quotes_ownpart": "quotes",
    "quotes_customerterms": "quotes",
    "quotes_shopmove": "quotes",
    "quotes_release": "quotes",
    "quotes_shipment": "quotes",
    "quotes_auditcall": "quotes",
    "quotes_quotedocument": "a file",
    "quotes_cutsheet": "a file",
    "quotes_bundle": "a file",
    "intake_requestline": "not: only how the requests above are found",
    "intake_requestwords": "not: the same",
    "intake_job": "not: what a mail server said",
}
# Words of an index alone, of no row any more: SQLite writes them over when it next merges it.
_NO_ROWS = {"intake_requestwords_data", "intake_requestwords_idx"}


# --- Everything that is stored --------------------------------------------------------


def stored() -> dict[str, str]:
    """The whole database: each table's every column as text, without capitals."""
    with connection.cursor() as cursor:
        tables = connection.introspection.table_names(cursor)
        told = {table: _rows(cursor, table) for table in sorted(set(tables) - _NO_ROWS)}
    told["django_session"] = str([one.get_decoded() for one in Session.objects.all()])
    return {table: text.casefold() for table, text in told.items()}


def _rows(cursor: Any, table: str) -> str:
    cursor.execute(f'SELECT * FROM "{table}"')  # noqa: S608 - names of our own tables
    return "\n".join(_told(value) for row in cursor.fetchall() for value in row)


def _told(value: Any) -> str:
    if not isinstance(value, bytes | memoryview):
        return value if isinstance(value, str) else json.dumps(value, default=str)
    content = bytes(value)
    if content.startswith(b"%PDF"):
        return "\n".join(page.extract_text() for page in PdfReader(io.BytesIO(content)).pages)
    return content.decode("latin-1")


def telling() -> dict[str, list[str]]:
    """Which tables tell who it was, by which words."""
    found = {table: [word for word in TELLING if word in text] for table, text in stored().items()}
    return {table: words for table, words in found.items() if words}


# --- Somebody of whom everything is kept ----------------------------------------------


@pytest.fixture
def percival() -> User:
    return someone("percival")


@pytest.fixture
def customer(percival: User, do_jobs: Callable[[], int]) -> Customer:
    """A record that was merged, put right, called, quoted, reminded, photographed, half typed."""
    stock_the_shelf()
    odile = _merged_and_put_right(percival)
    _called(percival)
    _ordered()
    _declined()
    _bundled(percival)
    _typed(percival)
    while do_jobs():
        pass
    Job.objects.filter(kind="send_mail").update(error=f"refused: {{'{MAIL}': 550}}")
    assert Job.objects.exclude(error="").exists()
    index_waiting()
    odile.refresh_from_db()
    return odile


def _merged_and_put_right(by: User) -> Customer:
    old = supplied(email=MAIL, job="PO 7741", ship_to={"country": "XX", "postcode": "ZX9QJ 4QQ"})
    boat = supplied(email=MAIL, boat="Biscuit Barel").boat
    merge_boats(keep=Boat.objects.get(pk=old.boat_id), gone=boat, by=by, why="Tarpley says so")
    first = Customer.objects.get(pk=old.customer_id)
    odile = received(phone=ODILE, name="Odile Marsh", boat="Fedora").customer
    merge_customers(keep=odile, gone=first, by=by, why="Wilmot Tarpley wed")
    odile.refresh_from_db()
    agree_terms(
        customer=odile, discount=Decimal("0.05"), deposit_part=None, deposit_over=None,
        from_day=timezone.localdate(), why="Tarpley keeps a yard", by=by,
    )  # fmt: skip
    changed = {"name": "Odile Tarpley", "phone": ODILE, "email": "odile@example.net"}
    return edit_customer(customer=odile, changed=changed, by=by, why="Tarpley rang")


def _called(by: User) -> None:
    submission = received(
        email=MAIL,
        job="PO 7741",
        face_to_strut_aft={"text": "42 1/8", "method": "rod"},
        dia_marks={"text": "cut by Tarpley"},
    )
    claims.claim(submission=submission, by=someone("iolo"))
    claims.take_over(submission=submission, by=by)
    BlindReading.objects.create(
        submission=submission, sheet=submission.current, answer="gap_now",
        first="ask Tarpley", second="3/4", by=by,
    )  # fmt: skip
    CallAlarm.objects.create(submission=submission, day="2026-03-04")
    AuditCall.objects.create(submission=submission, outcome="wrong", note="so Tarpley says")
    record_call(
        submission=submission, sheet_number=1, by=by, check_id="route-boat-vs-old",
        outcome="corrected", said_by="Wilmot Tarpley", cause="R-WHOLE",
        note="Tarpley was on Biscuit Barrel, 202 555 0100",
        answers={"face_to_strut_aft": {"text": "44 1/8", "method": "rod"}},
    )  # fmt: skip
    Photo.objects.create(
        submission=submission, ident="a" * 22, question="gap_now", width=8, height=8,
        content=a_picture(), small=a_picture(), sent_sha256="0" * 64,
    )  # fmt: skip


def _ordered() -> None:
    quote = quotes.issue_quote(submission_id=received(email=MAIL, job="PO 7741").pk)
    chosen = choose(
        submission=quote.submission, alloy="", options=["rush"], name="Wilmot Tarpley",
        told_from="status page, 203.0.113.7",
    )  # fmt: skip
    assert chosen is not None
    quote = chosen
    links.renew_link(submission=quote.submission)
    links.send_link(submission=quote.submission)
    links.ask_for_link(submission=quote.submission, typed=MAIL)
    links.switch_reminders_off(submission_id=quote.submission_id)
    quotes.accept_quote(quote=quote, name="Wilmot Tarpley", confirmations=ticked(quote))
    sent_with_words(Quote.objects.get(pk=quote.pk), "Tarpley")
    tell_outcome(quote=quote, after_days=7, fitted="changed", gap="3/4", different="Tarpley filed")
    _did_not_fit(quote)


# Numbers that are copied from boat to boat are asked about.
_LONGER = [
    {
        "face_to_strut_aft": {"text": f"{44 + more} 1/8", "method": "rod"},
        "old_length_face_to_thread": {"text": str(49 + more), "method": "tape"},
    }
    for more in (2, 4)
]


def _bundled(by: User) -> None:
    """Two boats under one order number, one of them called off with a word about it."""
    made = [
        quotes.issue_quote(submission_id=received(email=MAIL, job="PO 7741", boat=boat, **own).pk)
        for boat, own in (("Biscuit Barrel II", _LONGER[0]), ("Fedora II", _LONGER[1]))
    ]
    customer = made[0].submission.customer
    assert customer is not None
    issue_bundle(customer=customer, job="PO 7741", keys=[one.pk for one in made], by=by)
    quotes.accept_by_phone(quote=made[0], name="Tarpley", confirmations=ticked(made[0]), by=by)
    quotes.cancel_order(quote=made[0], reason="Tarpley sold her", by=by)


def _did_not_fit(quote: Quote) -> None:
    """A case with names in every box, an own part, and a day to ask again."""
    by = User.objects.get(username="percival")
    case = cases.open_case(quote, why="Tarpley rang", by=by)
    coded = cases.Coded("D-PIN", ("X",), "Wilmot's tape", "Tarpley", "at_fitting", "measuring")
    cases.code_cause(case=case, coded=coded, by=by)
    cost = cases.Cost("goodwill", "flowers for Tarpley", Decimal(12))
    cases.book_cost(case=case, cost=cost, once="1", by=by)
    payer = cases.Agreement("shorten", "us", "Tarpley is a friend", inches(1), comes_back=True)
    cases.agree(case=case, agreement=payer, by=by)
    arrival = Arrival(timezone.localdate(), "Wilmot Tarpley", "Tarpley's rust", "by Fedora")
    receive_unasked(quote=quote, what="coupling", arrival=arrival, by=by)
    later = f"{timezone.localdate() + timedelta(days=9):%Y-%m-%d}"
    again = {"fitted": "not_yet", "ask_on": later, "told_by": "Tarpley"}
    tell(quote=quote, after_days=30, typed=again, by=by)


def _declined() -> None:
    quote = quotes.issue_quote(submission_id=received(email=MAIL, boat="Fedora").pk)
    quotes.decline_quote(quote=quote, reason="Tarpley sold her")


def _typed(by: User) -> None:
    """A call with the number as neighbours say it, one with two names, one handed on."""
    for texts in (
        {"contact.phone": "202 555 0100", "answers.gap_now.text": "Tarpley mumbles"},
        {"contact.name": "wilmot  tarpley", "answers.boat_name_and_station.name": "Biscuit barrel"},
    ):
        sent = Sent(texts, whole=True, page="p", by=by.username, at="14:02")
        drafts.keep(ident=drafts.new_ident(), sent=sent, by=by)
    hand_over(draft={"contact": {"name": "Tarpley", "phone": WILMOT}})


_AS_QUOTES = (
    AuditCall,
    *(Quote, Mail, NoReminders, OldLink, Choice, CustomerTerms),
    *(Inspection, DeskWord, ShopMove, Shipment, HoursReading),
)


# --- Handed out -----------------------------------------------------------------------


def test_every_table_that_tells_who_it_is_is_known_here(customer: Customer) -> None:
    there = dict.fromkeys(telling())
    virtual = {"intake_requestwords"} if connection.vendor == "postgresql" else set()
    assert sorted(there) == sorted(set(HOLDING) - virtual)


def test_everything_that_is_stored_is_handed_out(customer: Customer) -> None:
    told, files = everything_kept(customer)
    assert {part for part in HOLDING.values() if " " not in part} <= set(told)
    handed = json.dumps(told, default=str).casefold()
    as_written = set(TELLING) - {"5550100"}  # a number's digits are only how it is found
    assert [word for word in sorted(as_written) if word not in handed] == []
    said = {"tarpley says so", "tarpley rang", "ask tarpley", "tarpley sold her"}
    assert said <= _texts(told)
    count = {
        "requests": Submission.objects.count(),
        "boats": Boat.objects.count(),
        "merges": Merge.objects.count(),
        "changes": Change.objects.exclude(record__in=("part", "terms", "case")).count(),
        "calls_begun": 2,
        "handed_on": HandedDraft.objects.count(),
        "quotes": sum(each.objects.count() for each in _AS_QUOTES),
    }
    assert {name: len(told[name]) for name in count} == count
    kinds = (Photo, QuoteDocument, CutSheet, Bundle)
    assert len(files) == sum(kind.objects.count() for kind in kinds)
    assert sum(len(boat["shafts"]) for boat in told["boats"]) == ShaftFitted.objects.count()
    assert sum(len(row.get("outcomes", ())) for row in told["quotes"]) == Outcome.objects.count()


def _texts(value: Any) -> set[str]:
    if isinstance(value, dict):
        return set().union(*map(_texts, value.values()))
    if isinstance(value, list | tuple):
        return set().union(*map(_texts, value))
    return {str(value).casefold()}


# --- Erased ---------------------------------------------------------------------------


def test_no_table_tells_who_it_was(customer: Customer, percival: User) -> None:
    note_handing_out(customer=customer, by=percival, why="Tarpley wrote")
    erase_customer(customer=customer, by=percival, why="asked by letter")
    assert telling() == {}
    index_waiting()
    assert telling() == {}


def test_the_jobs_of_before_bring_nothing_back(
    customer: Customer, percival: User, do_jobs: Callable[[], int]
) -> None:
    links.send_link(submission=Submission.objects.all()[0])
    erase_customer(customer=customer, by=percival, why="asked by letter")
    while do_jobs():
        pass
    forget_what_is_due()
    assert telling() == {}


def test_the_requests_stand_in_the_lists_without_a_name(
    customer: Customer, percival: User, client: Any
) -> None:
    references = set(Submission.objects.values_list("reference", flat=True))
    erase_customer(customer=customer, by=percival, why="asked by letter")
    index_waiting()
    client.force_login(percival, backend="django.contrib.auth.backends.ModelBackend")
    page = client.get("/desk/requests/").content.decode()
    assert {reference for reference in references if reference in page} == references
    found = client.get("/desk/requests/?q=tarpley").content.decode()
    assert [reference for reference in references if reference in found] == []


@pytest.mark.parametrize(
    "why",
    ["Tarpley wrote", "asked from 202 555 0100", f"mail of {MAIL}", "the owner of FEDORA asks"],
)
def test_the_reason_that_is_kept_names_nobody(customer: Customer, percival: User, why: str) -> None:
    with pytest.raises(EraseRefused, match="names who is to be erased"):
        erase_customer(customer=customer, by=percival, why=why)
    assert telling()


def test_a_neighbours_call_is_left_alone(customer: Customer, percival: User) -> None:
    texts = {"contact.phone": "+1 202 555 0199", "contact.name": "Bronagh", "job": "the same pier"}
    sent = Sent(texts, whole=True, page="p", by="percival", at="14:02")
    kept = drafts.keep(ident="neighbour", sent=sent, by=percival)
    erase_customer(customer=customer, by=percival, why="asked by letter")
    assert kept.draft is not None
    kept.draft.refresh_from_db()
    assert kept.draft.boxes["contact.name"]["text"] == "Bronagh"


def test_forms_that_were_held_and_never_sent_go_with_their_sessions(
    do_jobs: Callable[[], int],
) -> None:
    over, still = SessionStore(), SessionStore()
    for session, seconds in ((over, -1), (still, 60)):
        session["held"] = {"pairs": [["contact.name", "Tarpley"]]}
        session.set_expiry(seconds)
        session.save()
    handlers.look_what_is_due()
    while do_jobs():
        pass
    assert [one.session_key for one in Session.objects.all()] == [still.session_key]
