"""What is kept of a customer: handed out whole, erased whole, forgotten when its time is over."""

from __future__ import annotations

import io
import json
import zipfile
from collections.abc import Callable
from datetime import timedelta
from typing import Any

import pytest
from django.apps import apps
from django.contrib.auth.models import User
from django.core import serializers
from django.utils import timezone

from catalog.selectors import stock
from intake import selectors, services
from intake.calling.services import record_call
from intake.customers import handlers
from intake.customers.merging.services import MergeRefused, merge_customers, part
from intake.customers.privacy.selectors import as_zip, everything_kept
from intake.customers.privacy.services import EraseRefused, erase_customer, forget_what_is_due
from intake.desk_drafts.models import DeskDraft
from intake.domain.reading import read_sheet
from intake.evaluate import evaluate
from intake.hand_over.services import hand_over
from intake.limit_sets.selectors import current_limits
from intake.models import Customer, Job, Photo, SheetVersion, Submission
from staff.trail.services import note_change
from tests.intake.customers.given import ODILE, WILMOT, asks, received, someone, supplied
from tests.intake.desk_given import stock_the_shelf
from tests.intake.photos.given import as_file as a_picture

pytestmark = pytest.mark.django_db
BUILD = {"hull_built_by_year": {"builder": "Pilchard & Daughters", "length": "19 ft"}}
MAIL = "wilmot@example.net"
# What tells who it was, in every way it was written.
TELLING = ("Tarpley", "555 0100", "5550100", MAIL, "Biscuit", "biscuit", "PO 7741", "ZX9 4QQ")


@pytest.fixture
def percival() -> User:
    return someone("percival")


def a_customer(by: User) -> Customer:
    """Somebody of whom everything is kept that can be."""
    supplied(email=MAIL, job="PO 7741", ship_to={"country": "XX", "postcode": "ZX9 4QQ"}, **BUILD)
    submission = received(
        email=MAIL, job="PO 7741", face_to_strut_aft={"text": "42 1/8", "method": "rod"}, **BUILD
    )
    record_call(
        submission=submission,
        sheet_number=1,
        by=by,
        check_id="route-boat-vs-old",
        outcome="corrected",
        said_by="Wilmot Tarpley",
        cause="R-WHOLE",
        note="Tarpley was on his boat Biscuit Barrel",
        answers={"face_to_strut_aft": {"text": "44 1/8", "method": "rod"}},
    )
    Photo.objects.create(
        submission=submission,
        ident="a" * 22,
        question="gap_now",
        width=8,
        height=8,
        content=a_picture(),
        small=a_picture(),
        sent_sha256="0" * 64,
    )
    typed = {"contact.phone": {"text": WILMOT}, "contact.name": {"text": "Wilmot Tarpley"}}
    DeskDraft.objects.create(
        ident="loose", boxes=typed, title="Biscuit Barrel", key="k", opened_by=by, touched_by=by
    )
    hand_over(draft={"contact": {"email": MAIL}})
    customer = submission.customer
    note_change(
        record="customer",
        key=customer.pk,
        by=by,
        why="put right",
        before={"name": "W Tarpley"},
        after={"name": "Wilmot Tarpley"},
    )
    customer.refresh_from_db()
    return customer


def all_that_is_stored() -> str:
    """Every row of these rooms, as text."""
    rows: list[Any] = []
    for label in ("staff", "intake", "quotes"):
        for model in apps.get_app_config(label).get_models():
            rows += model._default_manager.all()
    return serializers.serialize("json", rows)


# --- Handing out ----------------------------------------------------------------------


def test_everything_is_handed_out_as_it_was_typed(percival: User) -> None:
    customer = a_customer(percival)
    other = supplied(phone=ODILE, email="o@example.net", boat="Otter").customer
    merge_customers(keep=customer, gone=other, by=percival, why="they are one")
    told, files = everything_kept(customer)
    packed = zipfile.ZipFile(io.BytesIO(as_zip(told, files)))
    kept = json.loads(packed.read("kept.json"))
    assert [one["phone"] for one in kept["customer"]] == [WILMOT, ODILE]
    assert [one["name"] for one in kept["boats"]] == ["Biscuit Barrel", "Otter"]
    assert [len(one["shafts"]) for one in kept["boats"]] == [1, 1]
    assert [len(one["sheets"]) for one in kept["requests"]] == [1, 2, 1]
    first = kept["requests"][0]["sheets"][0]["body"]
    assert first["answers"]["ship_to"]["postcode"] == "ZX9 4QQ"
    assert kept["requests"][1]["calls"][0]["note"].startswith("Tarpley")
    assert kept["calls_begun"][0]["boxes"]["contact.phone"]["text"] == WILMOT
    assert packed.read(f"photos/{'a' * 22}.jpg") == a_picture()


def test_nothing_of_another_is_handed_out(percival: User) -> None:
    received(phone=ODILE, name="Odile Marsh", boat="Otter")
    told, _ = everything_kept(a_customer(percival))
    assert "Odile" not in json.dumps(told, default=str)


# --- Erasing --------------------------------------------------------------------------


def test_nothing_that_is_stored_tells_who_it_was(percival: User) -> None:
    customer = a_customer(percival)
    there = all_that_is_stored()
    assert [word for word in TELLING if word not in there] == []
    erase_customer(customer=customer, by=percival, why="asked by letter")
    left = all_that_is_stored()
    assert [word for word in TELLING if word in left] == []


def test_what_was_learned_is_the_same_as_before(percival: User) -> None:
    stock_the_shelf()
    customer = a_customer(percival)
    supplied(phone=ODILE, boat="Otter", length="50", **BUILD)
    before = statistics()
    erase_customer(customer=customer, by=percival, why="asked by letter")
    assert statistics() == before
    assert any(before)


def statistics() -> list[Any]:
    """Everything that is counted, and what each sheet comes to when it is judged anew."""
    months = selectors.months_back(12)
    counted = [selectors.mismatches_by_month(by, months) for by in ("cause", "check", "question")]
    stranger = read_sheet(asks(phone="+1 202 555 0111", boat="Hob", **BUILD))
    family = sorted(length.nm for length in selectors.history_facts(stranger).family_lengths)
    judged = [
        evaluate(read_sheet(body), stock(), limits=current_limits()).as_record()
        for body in SheetVersion.objects.order_by("pk").values_list("body", flat=True)
    ]
    numbers = list(SheetVersion.objects.order_by("pk").values_list("readings", "outcome"))
    requests = list(
        Submission.objects.order_by("pk").values_list(
            "received_at", "channel", "verdict", "station", "contact_role"
        )
    )
    return [*counted, family, judged, numbers, requests]


def test_open_requests_are_withdrawn_and_their_photos_and_drafts_are_gone(percival: User) -> None:
    customer = a_customer(percival)
    erase_customer(customer=customer, by=percival, why="asked by letter")
    assert set(Submission.objects.values_list("status", flat=True)) == {"withdrawn"}
    assert not Photo.objects.exists()
    assert not DeskDraft.objects.exists()


def test_the_same_request_sent_again_does_not_bring_it_back(percival: User) -> None:
    body = asks(email=MAIL)
    first = services.receive_submission(body=body, idempotency_key="k-1")
    erase_customer(customer=first.customer, by=percival, why="asked by letter")
    with pytest.raises(services.KeyReused):
        services.receive_submission(body=body, idempotency_key="k-1")
    assert Submission.objects.count() == 1


def test_whoever_asks_again_is_somebody_new(percival: User) -> None:
    erased = received().customer
    erase_customer(customer=erased, by=percival, why="asked by letter")
    again = received()
    assert again.customer != erased
    assert selectors.history_facts(read_sheet(asks())).last_length is None


def test_who_was_merged_is_erased_with_them_and_cannot_be_parted(percival: User) -> None:
    one, other = received().customer, received(phone=ODILE, name="Odile Marsh").customer
    merge = merge_customers(keep=one, gone=other, by=percival, why="they are one")
    one.refresh_from_db()
    erase_customer(customer=one, by=percival, why="asked by letter")
    assert set(Customer.objects.values_list("phone", "name")) == {("", "")}
    with pytest.raises(MergeRefused, match="erased"):
        part(merge=merge, by=percival)


def test_a_reason_is_asked_for_and_it_happens_once(percival: User) -> None:
    customer = received().customer
    with pytest.raises(EraseRefused, match="how it was asked"):
        erase_customer(customer=customer, by=percival, why=" ")
    erase_customer(customer=customer, by=percival, why="asked by letter")
    with pytest.raises(EraseRefused, match="erased already"):
        erase_customer(customer=customer, by=percival, why="asked by letter")


def test_another_customer_is_left_alone(percival: User) -> None:
    other = supplied(phone=ODILE, name="Odile Marsh", boat="Biscuit Barrel")
    customer = a_customer(percival)
    before = serializers.serialize("json", [other, other.current, other.customer, other.boat])
    erase_customer(customer=customer, by=percival, why="asked by letter")
    kept = Submission.objects.get(pk=other.pk)
    now = serializers.serialize("json", [kept, kept.current, kept.customer, kept.boat])
    assert now == before


# --- What is due ----------------------------------------------------------------------


def grow_old(days: int) -> None:
    """Nothing has happened for so long."""
    then = timezone.now() - timedelta(days=days)
    Customer.objects.update(active_at=then)
    Photo.objects.update(at=then)
    DeskDraft.objects.update(touched_at=then)


@pytest.mark.parametrize(
    ("name", "left"),
    [
        ("KEEP_CONTACT_DAYS", (0, 0, 0)),
        ("KEEP_PHOTO_DAYS", (1, 0, 1)),
        ("KEEP_DRAFT_DAYS", (1, 1, 0)),
    ],
)
@pytest.mark.parametrize("days", [9, 11])
def test_each_kind_is_kept_for_its_days(
    percival: User, settings: Any, name: str, left: tuple[int, int, int], days: int
) -> None:
    for each in ("KEEP_CONTACT_DAYS", "KEEP_PHOTO_DAYS", "KEEP_DRAFT_DAYS"):
        setattr(settings, each, 10 if each == name else 0)
    a_customer(percival)
    grow_old(days)
    forget_what_is_due()
    there = (
        Customer.objects.filter(erased_at=None).count(),
        Photo.objects.count(),
        DeskDraft.objects.count(),
    )
    assert there == (left if days > 10 else (1, 1, 1))


def test_the_sweep_asks_once_a_day_and_goes_on_until_nothing_is_due(
    settings: Any, do_jobs: Callable[[], int], monkeypatch: pytest.MonkeyPatch
) -> None:
    settings.KEEP_CONTACT_DAYS = 10
    monkeypatch.setattr("intake.customers.privacy.services._AT_ONCE", 2)
    monkeypatch.setattr(handlers, "_PAUSE", timedelta(0))
    for number in range(5):
        received(phone=f"+1 202 555 01{number:02}", boat=f"Boat {number}")
    grow_old(11)
    for _ in range(2):
        handlers.look_what_is_due()
    while do_jobs():
        pass
    assert not Customer.objects.filter(erased_at=None).exists()
    assert Job.objects.filter(kind="forget_what_is_due").count() == 4  # 2, 2, 1 and none
