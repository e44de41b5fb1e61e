"""The demo's season holds together: judged as stored, priced to the cent, nothing left to do."""

from __future__ import annotations

from collections import Counter
from datetime import UTC, datetime

import pytest
from django.contrib.auth.models import User
from django.core import mail
from django.db.models import F
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from intake.domain.kept_history import KEY, history_again
from intake.domain.limits import DEFAULT_LIMITS
from intake.domain.reading import read_sheet
from intake.evaluate import evaluate
from intake.management.commands.simulate import shipped_stock
from intake.models import Event, Job, SheetVersion, Submission
from quotes.demo.season.asking import CONFUSED, MONTHS, WRONG_BEARING, fixed_on, requests
from quotes.demo.season.services import load_season
from quotes.domain.insight.measures import Measure, by_key, total
from quotes.insight.asked import Asked
from quotes.insight.models import MismatchFact, MonthToCount, RequestFact
from quotes.insight.selectors import counts
from quotes.models import Outcome, Quote
from tests.intake.desk_given import stock_the_shelf
from tests.staff.given import PASSWORD, a_member, logged_in

NOW = datetime(2026, 11, 26, 12, tzinfo=UTC)
ALL = Asked("2000-01", "2100-12")


@pytest.fixture
def by(db: None) -> dict[str, User]:
    stock_the_shelf()
    groups = {"maud": "counter", "iolo": "counter", "bronagh": "machinist", "percival": "manager"}
    return {name: a_member(name, group) for name, group in groups.items()}


@pytest.fixture
def season(by: dict[str, User]) -> dict[str, User]:
    assert load_season(seed=1, how_many=90, by=by) == 90
    return by


@pytest.mark.usefixtures("season")
def test_every_sheet_is_judged_as_it_is_stored() -> None:
    stock = shipped_stock()
    for sheet in SheetVersion.objects.all():
        facts = history_again(sheet.outcome[KEY])
        verdict = evaluate(read_sheet(sheet.body), stock, facts, DEFAULT_LIMITS)
        assert verdict.verdict.value == sheet.verdict, sheet


@pytest.mark.usefixtures("season")
def test_sums_hold_and_nothing_happens_before_its_time() -> None:
    for quote in Quote.objects.filter(status__in=["issued", "accepted", "declined", "lapsed"]):
        assert quote.total == quote.goods + quote.freight + quote.tax
    now = timezone.now()
    assert not Submission.objects.filter(received_at__gt=now).exists()
    assert not Event.objects.filter(at__gt=now).exclude(new_status="lapsed").exists()
    assert not Event.objects.filter(at__lt=F("submission__received_at")).exists()
    assert not Outcome.objects.filter(at__date__lt=F("quote__shipment__day")).exists()
    sheets = SheetVersion.objects.filter(is_current=True)
    assert sheets.count() == Submission.objects.count() == 90


@pytest.mark.usefixtures("season")
def test_no_mail_leaves_and_the_counts_are_there() -> None:
    assert mail.outbox == []
    assert not Job.objects.filter(done_at=None).exists()
    assert RequestFact.objects.count() == 90
    assert not MonthToCount.objects.exists()
    found = counts(ALL, [Measure.RECEIVED, Measure.SHIPPED, Measure.KNOWN])
    assert total(found, Measure.RECEIVED).n == 90
    assert 0 < total(found, Measure.KNOWN).n < total(found, Measure.SHIPPED).n


def test_a_second_load_does_nothing(season: dict[str, User]) -> None:
    assert load_season(seed=1, how_many=90, by=season) == 0
    assert Submission.objects.count() == 90


def test_pages_of_the_season_open(season: dict[str, User]) -> None:
    percival: Client = logged_in(season["percival"])
    assert PASSWORD
    kinds = [
        Submission.objects.filter(calls__isnull=False),
        Submission.objects.filter(quotes__shipment__isnull=False),
        Submission.objects.filter(status="needs_call"),
    ]
    for rows in kinds:
        one = rows.first()
        if one is not None:
            address = reverse("submission", args=[one.reference])
            assert percival.get(address).status_code == 200


def test_both_stories_stand_in_three_thousand_requests() -> None:
    """Without a database: the slips as drawn, before and after the question was put right."""
    fixed = fixed_on(1, 3000, NOW)
    seen: Counter[tuple[bool, bool]] = Counter()
    bearings = 0
    for one in requests(1, 3000, NOW, shipped_stock()):
        seen[one.at >= fixed, one.customer.kind in CONFUSED] += 1
        bearings += "bearing" in one.body["wants"]
    before = seen[False, True] / (seen[False, True] + seen[False, False])
    after = seen[True, True] / (seen[True, True] + seen[True, False])
    assert before > 2 * after
    assert bearings > 200
    assert MONTHS == 18


@pytest.mark.usefixtures("season")
def test_the_wrong_bearing_is_named_where_it_came_back() -> None:
    for one in MismatchFact.objects.filter(cause="C-WRONGDIM"):
        assert one.what == WRONG_BEARING
        assert one.found == "at_fitting"
    stages = by_key(counts(ALL, [Measure.MISMATCH]), Measure.MISMATCH)
    assert sum(one.n for one in stages.values()) == MismatchFact.objects.count()
