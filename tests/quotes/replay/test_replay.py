"""A period judged again: what a change does is its own, once, whoever dies or comes second."""

from __future__ import annotations

import json
from datetime import timedelta
from decimal import Decimal
from importlib import resources
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.utils import timezone

from intake import jobs
from intake.domain.kept_history import KEY, history_again
from intake.domain.limit_values import LimitErrors, limits_from
from intake.domain.reading import read_sheet
from intake.evaluate import evaluate
from intake.limit_sets import services as limit_sets
from intake.limit_sets.selectors import current_limits
from intake.models import Job, LimitSet, SheetVersion, Submission
from intake.season.customers import a_customer
from intake.season.sheets import a_body as season_body
from intake.services import receive_submission
from quotes.domain.replay import judged
from quotes.insight.models import MismatchFact, RequestFact
from quotes.replay import handlers, selectors, services
from quotes.replay.models import CANCELLED, DONE, FAILED, RUNNING, WAITING, Replay, ReplaySheet
from tests.given import a_body, demo_stock
from tests.intake.desk_given import stock_the_shelf
from tests.intake.test_services import at_once
from tests.quotes.replay.given import TIGHT, asked, done, fresh
from tests.staff.given import a_manager

pytestmark = pytest.mark.django_db
LOG = {"log_id": {"text": "1 15/64", "method": "caliper"}}


@pytest.fixture(autouse=True)
def _shelf() -> None:
    stock_the_shelf()


@pytest.fixture
def percival() -> User:
    return a_manager()


def some_requests() -> list[Submission]:
    """One that is clean, one with a tight log, one that lacks its coupling's direction."""
    return [
        receive_submission(body=body)
        for body in (
            a_body(),
            a_body(**LOG, top=of_somebody(1)),
            a_body(without=("flange_direction",), top=of_somebody(2)),
        )
    ]


def of_somebody(number: int) -> dict[str, Any]:
    return {"contact": {"phone": f"+1 202 555 01{number:02}", "role": "owner"}}


def moved(replay: Replay) -> dict[int, tuple[str, str]]:
    return {row.submission_id: (row.before, row.after) for row in replay.sheets.all()}


# --- By construction ---------------------------------------------------------------------


def test_unchanged_limits_change_nothing(percival: User) -> None:
    some_requests()
    replay = done(asked(percival))
    tally = selectors.tally(replay)
    assert (replay.state, replay.done, replay.total) == (DONE, 3, 3)
    assert (tally.sheets, tally.facts_kept, tally.drifted) == (3, 3, 0)
    assert (tally.changed, tally.moved) == (0, 0)
    assert moved(replay) == {}


def test_unchanged_limits_change_nothing_on_the_demos_sheets(percival: User) -> None:
    bodies = json.loads(resources.files("quotes").joinpath("demo/bodies.json").read_text("utf-8"))
    for one in bodies:
        receive_submission(body=one["body"])
    tally = selectors.tally(done(asked(percival)))
    assert (tally.sheets, tally.unread, tally.drifted) == (len(bodies), 0, 0)
    assert (tally.changed, tally.moved) == (0, 0)


def test_a_request_that_was_erased_lacks_nobody(percival: User) -> None:
    clean, *_rest = some_requests()
    sheet = SheetVersion.objects.get(submission=clean)
    body = {name: told for name, told in sheet.body.items() if name != "contact"}
    SheetVersion.objects.filter(pk=sheet.pk).update(body=body)
    Submission.objects.filter(pk=clean.pk).update(erased_at=timezone.now())
    assert selectors.tally(done(asked(percival))).drifted == 0


def test_unchanged_limits_change_nothing_on_two_hundred_sheets_of_a_season(
    percival: User,
) -> None:
    """Other boats of one customer, the same boat again: what is known beside a sheet counts."""
    for index in range(200):
        receive_submission(body=season_body(a_customer(2026, index)))
    replay = done(asked(percival))
    tally = selectors.tally(replay)
    assert (tally.sheets, tally.unread, tally.drifted) == (200, 0, 0)
    assert (tally.changed, tally.moved) == (0, 0)
    assert 0 < tally.calls_before < 200


def test_a_tightened_limit_moves_exactly_the_sheets_it_should(percival: User) -> None:
    for index in range(40):
        receive_submission(body=season_body(a_customer(7, index)))
    limits = limits_from("tight", TIGHT, {})
    expected = {}
    for sheet in SheetVersion.objects.order_by("pk"):
        kept = sheet.outcome[KEY]
        side = SheetVersion.objects.filter(pk=kept.get("sister")).first()
        history = history_again(kept, read_sheet(side.body) if side else None)
        read = read_sheet(sheet.body, contact_needed=True)
        before = judged(evaluate(read, demo_stock(), history))
        after = judged(evaluate(read, demo_stock(), history, limits))
        if before != after:
            expected[sheet.submission_id] = (before.verdict, after.verdict)
    assert expected
    assert moved(done(asked(percival, **TIGHT))) == expected


def test_what_the_program_judges_otherwise_today_is_not_the_changes_doing(
    percival: User,
) -> None:
    clean, tight, _lacking = some_requests()
    stored = SheetVersion.objects.filter(submission=clean)
    stored.update(verdict="ask")  # as an older program had it
    replay = done(asked(percival))
    tally = selectors.tally(replay)
    assert (tally.drifted, tally.changed) == (1, 0)
    assert moved(replay) == {}
    changed = done(asked(percival, "two", **{"severity:log-clearance": "note"}))
    assert moved(changed) == {tight.pk: ("ask", "release")}
    assert selectors.tally(changed).drifted == 1


def test_sheets_judged_by_earlier_limits_are_compared_with_what_is_in_force(
    percival: User,
) -> None:
    """Going back to the limits a sheet was judged by is a change all the same."""
    _clean, tight, _lacking = some_requests()
    off = {"severity:log-clearance": "off"}
    limit_sets.adopt_limits(name="desk 1", reason="A try.", by=percival, values=off)
    replay = done(asked(percival, **{"severity:log-clearance": "ask"}))
    assert replay.changes == {"severity:log-clearance": ""}
    assert moved(replay) == {tight.pk: ("release", "ask")}
    assert selectors.tally(replay).drifted == 1


# --- What it finds -----------------------------------------------------------------------


def test_a_must_holds_what_lacks_it_and_says_what_would_be_asked(percival: User) -> None:
    clean, tight, _lacking = some_requests()
    replay = done(asked(percival, **{"needed:log_id": "yes"}))
    rows = {row.submission_id: row for row in replay.sheets.all()}
    assert (rows[clean.pk].before, rows[clean.pk].after) == ("release", "ask")
    assert rows[clean.pk].after_holding == [["must-be-answered", "ask"]]
    assert "inside diameter of the shaft log" in rows[clean.pk].question
    assert tight.pk not in rows


def test_known_mistakes_are_caught_or_missed_and_cost_what_was_booked(percival: User) -> None:
    clean, tight, _lacking = some_requests()
    for submission, cause, cost in ((clean, "R-FLIP", "131.20"), (tight, "S-CUT", "470.00")):
        fact = RequestFact.objects.create(
            submission=submission, month="2026-04", received_at=submission.received_at, parts="scb"
        )
        MismatchFact.objects.create(
            fact=fact,
            month="2026-04",
            on=timezone.localdate(),
            cause=cause,
            found="at_fitting",
            cost=Decimal(cost),
            parts="scb",
        )
    replay = done(asked(percival, **{"needed:log_id": "yes"}))
    tally = selectors.tally(replay)
    assert (tally.wrong, tally.caught_before, tally.caught_after) == (1, 0, 1)
    assert (tally.let_through_before, tally.let_through_after) == (13120, 0)
    assert replay.sheets.get(submission=clean).wrong


def test_what_came_outside_the_period_is_left_alone(percival: User) -> None:
    early, *_rest = some_requests()
    long_ago = timezone.now() - timedelta(days=800)
    Submission.objects.filter(pk=early.pk).update(received_at=long_ago)
    assert done(asked(percival)).total == 2


def test_a_period_without_requests_is_done_at_once(percival: User) -> None:
    replay = done(asked(percival))
    assert (replay.state, replay.total) == (DONE, 0)


def test_a_sheet_that_cannot_be_read_any_more_is_counted_as_such(percival: User) -> None:
    clean, *_rest = some_requests()
    SheetVersion.objects.filter(submission=clean).update(body={"wants": "nonsense"})
    tally = selectors.tally(done(asked(percival)))
    assert (tally.sheets, tally.unread) == (2, 1)


# --- Asking, cancelling, dying ------------------------------------------------------------


def test_a_form_sent_twice_asks_once(percival: User) -> None:
    one, two = asked(percival, "same"), asked(percival, "same")
    assert one.pk == two.pk
    assert Job.objects.filter(kind="replay").count() == 1


def test_what_makes_no_sense_is_refused_with_its_sentences(percival: User) -> None:
    today = timezone.localdate()
    wrong = services.Asked("x" * 61, today, today - timedelta(days=1), {"fit_ask": "much"})
    with pytest.raises(LimitErrors) as caught:
        services.ask_replay(asked=wrong, by=percival, ask_key="one")
    assert set(caught.value.errors) == {"name", "last_day", "fit_ask"}
    assert not Replay.objects.exists()


def test_a_cancelled_replay_stops_where_it_is(percival: User, monkeypatch: Any) -> None:
    monkeypatch.setattr(handlers, "STEP_SHEETS", 1)
    monkeypatch.setattr(selectors, "BATCH", 1)
    some_requests()
    replay = asked(percival, **TIGHT)
    jobs.drain()  # counted
    jobs.drain()  # one sheet
    assert (fresh(replay).state, fresh(replay).done) == (RUNNING, 1)
    assert services.cancel(replay=replay)
    assert not services.cancel(replay=replay)
    while jobs.drain():
        pass
    assert (fresh(replay).state, fresh(replay).done) == (CANCELLED, 1)


def test_a_step_that_was_under_way_as_it_was_cancelled_writes_nothing(percival: User) -> None:
    some_requests()
    replay = asked(percival, **{"needed:log_id": "yes"})
    jobs.drain()
    now = fresh(replay)
    finish = handlers.step({"replay": now.pk, "step": selectors.step_key(now)})
    services.cancel(replay=now)
    assert finish is not None
    finish()
    assert fresh(replay).state == CANCELLED
    assert not ReplaySheet.objects.exists()


def test_a_killed_worker_goes_on_where_it_stopped_and_nothing_is_counted_twice(
    percival: User, monkeypatch: Any
) -> None:
    monkeypatch.setattr(handlers, "STEP_SHEETS", 1)
    monkeypatch.setattr(selectors, "BATCH", 1)
    some_requests()
    whole = selectors.tally(done(asked(percival, "whole", **{"needed:log_id": "yes"})))
    replay = asked(percival, "killed", **{"needed:log_id": "yes"})
    jobs.drain(), jobs.drain()
    job = Job.objects.get(kind="replay", done_at=None)
    lost = jobs._claim(job.pk)  # a worker took it and was killed after judging
    assert lost is not None
    finish = handlers.step(lost.payload)
    Job.objects.filter(pk=job.pk).update(lease_until=timezone.now() - timedelta(seconds=1))
    assert selectors.tally(done(replay)).as_json() == whole.as_json()
    assert finish is not None
    finish()  # it was not dead after all, and comes second
    assert selectors.tally(fresh(replay)).as_json() == whole.as_json()
    assert replay.sheets.count() == whole.changed + whole.moved


def test_a_step_that_dies_again_and_again_is_said(percival: User) -> None:
    replay = asked(percival)
    Job.objects.filter(kind="replay").update(dead=True, error="Traceback\nOSError: no disk")
    services.fail_what_is_given_up()
    assert fresh(replay).state == FAILED
    assert fresh(replay).note.endswith("It stopped: OSError: no disk")


@pytest.mark.django_db(transaction=True)
def test_two_workers_at_once_never_double(percival: User) -> None:
    requests = some_requests()
    replay = asked(percival, **{"needed:log_id": "yes"})
    jobs.drain()
    now = fresh(replay)
    payload = {"replay": now.pk, "step": selectors.step_key(now)}
    finishes = [handlers.step(payload), handlers.step(payload)]
    waiting = [finish for finish in finishes if finish is not None]
    assert len(waiting) == 2
    at_once(lambda: waiting.pop()(), 2)
    assert fresh(replay).done == len(requests)
    assert replay.sheets.count() == 2


# --- Adopting -----------------------------------------------------------------------------


def test_a_replay_is_adopted_with_its_name_and_reason(percival: User) -> None:
    some_requests()
    typed = {"severity:log-clearance": "note", "route_ask": "7/16 in"}
    replay = done(asked(percival, **typed))
    row = services.adopt(replay=replay, name="2026.2", reason="It pays.", by=percival)
    assert current_limits().name == "2026.2"
    assert row.values == {"severity:log-clearance": "note", "route_ask": "11.112500"}
    assert fresh(replay).adopted_as == "2026.2"
    assert (row.reason, row.adopted_by) == ("It pays.", percival)


def test_what_was_compared_with_other_limits_cannot_be_adopted(percival: User) -> None:
    replay = done(asked(percival, **TIGHT))
    limit_sets.adopt_limits(
        name="desk 1", reason="Mine.", by=percival, values={"route_ask": "7/16 in"}
    )
    with pytest.raises(limit_sets.LimitsOvertaken):
        services.adopt(replay=replay, name="2026.2", reason="It pays.", by=percival)
    assert LimitSet.objects.count() == 1


def test_only_an_end_and_only_a_change_can_be_adopted(percival: User) -> None:
    waiting = asked(percival, **TIGHT)
    assert waiting.state == WAITING
    with pytest.raises(services.ReplayRefused):
        services.adopt(replay=waiting, name="2026.2", reason="It pays.", by=percival)
    unchanged = done(asked(percival, "two"))
    with pytest.raises(services.ReplayRefused):
        services.adopt(replay=unchanged, name="2026.2", reason="It pays.", by=percival)


@pytest.mark.django_db(transaction=True)
def test_of_two_managers_who_adopt_at_once_one_is_told(percival: User) -> None:
    one = done(asked(percival, "one", **TIGHT))
    two = done(asked(percival, "two", route_ask="7/16 in"))
    waiting = [(one, "first"), (two, "second")]

    def adopt() -> LimitSet:
        replay, name = waiting.pop()
        return services.adopt(replay=replay, name=name, reason="It pays.", by=percival)

    results = at_once(adopt, 2)
    assert sorted(type(one).__name__ for one in results) == ["LimitSet", "LimitsOvertaken"]
    assert LimitSet.objects.count() == 1
    assert Replay.objects.exclude(adopted_as="").count() == 1
