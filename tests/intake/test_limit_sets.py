"""Limit sets: only ever added, the newest in force, one object until it changes; and learning."""

from __future__ import annotations

from typing import Any

import pytest
from django.contrib.auth.models import User

from catalog.domain.lengths import inches
from intake import services as intake
from intake.calling.services import record_call
from intake.domain.limit_values import LimitErrors
from intake.domain.limits import DEFAULT_LIMITS
from intake.domain.slips import weights
from intake.limit_sets import selectors, services
from intake.models import CallRecord, LimitSet, Submission
from staff.trail.selectors import changes_of
from tests.intake.bodies import PUT_RIGHT, SHORT, a_body
from tests.intake.desk_given import a_person, stock_the_shelf
from tests.intake.test_services import at_once

pytestmark = pytest.mark.django_db


@pytest.fixture(autouse=True)
def _shelf() -> None:
    stock_the_shelf()


@pytest.fixture
def percival() -> User:
    return a_person("manager")


def adopt(by: User, name: str = "2026.2", **values: str) -> LimitSet:
    return services.adopt_limits(
        name=name, reason="The season showed it.", by=by, values=values or {"fit_ask": "0.98"}
    )


def called(submission: Submission, by: User, cause: str, **changes: Any) -> Submission:
    sheet = submission.current
    check = next(f["check"] for f in sheet.outcome["findings"] if f["severity"] != "note")
    return record_call(
        submission=submission,
        sheet_number=sheet.number,
        by=by,
        check_id=check,
        outcome="corrected",
        said_by="Wilmot",
        cause=cause,
        **{"answers": PUT_RIGHT, **changes},
    )


# --- In force --------------------------------------------------------------------------


def test_without_a_set_the_codes_own_limits_are_in_force() -> None:
    assert selectors.current_limits() is DEFAULT_LIMITS


def test_the_newest_set_is_in_force_and_one_object(
    percival: User, django_assert_num_queries: Any
) -> None:
    adopt(percival, "first", route_ask="7/16 in")
    adopt(percival, "second", fit_ask="0.98")
    now = selectors.current_limits()
    assert (now.name, now.route_ask, now.fit_ask) == ("second", inches("7/16"), 0.98)
    with django_assert_num_queries(1):
        assert selectors.current_limits() is now
    adopt(percival, "third", route_ask="")
    assert selectors.current_limits() is not now
    assert selectors.current_limits().route_ask == DEFAULT_LIMITS.route_ask


def test_what_changed_and_why_stands_in_the_trail(percival: User) -> None:
    adopt(percival, "first", route_ask="7/16 in")
    adopt(percival, "second", route_ask="", **{"severity:log-clearance": "note"})
    newest = changes_of(services.TRAIL, 2)[0]
    assert (newest.by, newest.why) == (percival, "The season showed it.")
    assert newest.what == {
        "boat against old shaft: asked beyond (inch shafts)": [
            "7/16 in · 11.113 mm",
            "3/8 in · 9.525 mm",
        ],
        "severity: the shaft has too little room in its log": ["ask", "note"],
    }


def test_a_set_is_added_and_never_edited(percival: User) -> None:
    first = adopt(percival, "first", route_ask="7/16 in")
    adopt(percival, "second", route_ask="1/2 in")
    first.refresh_from_db()
    assert first.values == {"route_ask": "11.112500"}
    assert [row.name for row in selectors.limit_sets()] == ["second", "first"]
    assert [row.number for row in selectors.limit_sets()] == [2, 1]


def test_every_door_judges_by_the_limits_in_force(percival: User) -> None:
    """Half an inch between the ways: asked by the usual limits, stopped by narrower ones."""
    body = a_body(face_to_strut_aft={"text": "43 1/8", "method": "rod"})
    assert intake.dry_check(body=body).verdict == "ask"
    before = intake.receive_submission(body=body)
    adopt(percival, "narrow", route_stop="7/8 in", route_ask="1/4 in")
    assert intake.dry_check(body=body).verdict == "stop"
    after = intake.receive_submission(body=body)
    assert (after.verdict, after.current.rules_version) == ("stop", "narrow")
    before.refresh_from_db()
    assert (before.verdict, before.current.rules_version) == ("ask", DEFAULT_LIMITS.name)
    other = {"face_to_strut_aft": {"text": "43", "method": "rod"}}
    again = called(before, percival, "R-WHOLE", answers=other)
    assert again.current.rules_version == "narrow"


# --- What is refused -------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "reason", "values", "wrong"),
    [
        ("", "why", {"fit_ask": "0.98"}, {"name"}),
        ("x" * 21, "why", {"fit_ask": "0.98"}, {"name"}),
        (DEFAULT_LIMITS.name, "why", {"fit_ask": "0.98"}, {"name"}),
        ("new", " ", {"fit_ask": "0.98"}, {"reason"}),
        ("new", "x" * 401, {"fit_ask": "0.98"}, {"reason"}),
        ("new", "why", {}, {"values"}),
        ("new", "why", {"fit_ask": "0.97"}, {"values"}),
        ("", "", {"fit_ask": "7"}, {"name", "reason", "fit_ask"}),
    ],
)
def test_all_that_is_wrong_is_said_and_nothing_stored(
    percival: User, name: str, reason: str, values: dict[str, str], wrong: set[str]
) -> None:
    with pytest.raises(LimitErrors) as caught:
        services.adopt_limits(name=name, reason=reason, by=percival, values=values)
    assert set(caught.value.errors) == wrong
    assert not LimitSet.objects.exists()


def test_a_name_is_used_once(percival: User) -> None:
    adopt(percival, "Spring")
    with pytest.raises(LimitErrors) as caught:
        adopt(percival, "SPRING", fit_ask="0.96")
    assert set(caught.value.errors) == {"name"}


def test_who_looked_at_older_limits_is_told_so(percival: User) -> None:
    adopt(percival, "first")
    with pytest.raises(services.LimitsOvertaken):
        services.adopt_limits(
            name="second",
            reason="why",
            by=percival,
            values={"fit_ask": "0.96"},
            based_on=DEFAULT_LIMITS.name,
        )
    assert LimitSet.objects.count() == 1


def test_two_at_once_leave_one(percival: User) -> None:
    """The number is the lock: the second insert of the same number is refused."""
    first, second = (services._next(name, "why", percival, None) for name in ("a", "b"))
    services._adopt(first, {})
    with pytest.raises(services.LimitsOvertaken):
        services._adopt(second, {})
    assert [row.name for row in LimitSet.objects.all()] == ["a"]


@pytest.mark.django_db(transaction=True)
def test_of_four_managers_at_once_one_is_first(percival: User) -> None:
    names = ["a", "b", "c", "d"]

    def one() -> str:
        row = services.adopt_limits(
            name=names.pop(),
            reason="why",
            by=percival,
            values={"fit_ask": "0.98"},
            based_on=DEFAULT_LIMITS.name,
        )
        return row.name

    got = at_once(one, 4)
    assert sum(isinstance(each, services.LimitsOvertaken) for each in got) == 3
    assert [row.name for row in LimitSet.objects.all()] == [n for n in got if isinstance(n, str)]


@pytest.mark.django_db(transaction=True)
def test_threads_share_one_object(percival: User) -> None:
    adopt(percival)
    selectors._kept.clear()
    got = at_once(selectors.current_limits, 4)
    assert len({id(one) for one in got}) == 1


# --- Learning --------------------------------------------------------------------------


def test_a_sheet_without_a_cause_counts_as_fine() -> None:
    intake.receive_submission(body=a_body())
    assert selectors.cause_counts() == {"OK": 1}


def test_a_sheet_counts_once_under_its_last_cause(percival: User) -> None:
    asked = intake.receive_submission(body=a_body(**SHORT))
    assert selectors.cause_counts() == {}, "not decided yet"
    called(asked, percival, "R-WHOLE", answers={"face_to_strut_aft": {"text": "42"}})
    called(asked, percival, "D-FWD")
    intake.receive_submission(body=a_body(phone="+1 202 555 0177"))
    assert selectors.cause_counts() == {"D-FWD": 1, "OK": 1}


def test_what_cannot_be_learned_from_is_left_out(percival: User) -> None:
    """One way to the length only, or withdrawn: nothing was compared, or nothing decided."""
    again = {"text": "44 1/8", "method": "rod", "again": {"text": "44 1/8"}}
    one = a_body(old_length_face_to_thread=None, tail_to_thread=None, face_to_strut_aft=again)
    intake.receive_submission(body=one)
    gone = intake.receive_submission(body=a_body(boat="Otter"))
    intake.close(submission=gone, reason="sold the boat")
    assert selectors.cause_counts() == {}


@pytest.mark.parametrize(
    ("cause", "answer", "counted"),
    [
        ("D-PIN", "old_length_face_to_thread", {"D-PIN": 1}),
        ("K-TYPED", "face_to_strut_aft", {"X": 1}),
        ("I-HUB", "flange_od", {"OK": 1}),
    ],
)
def test_other_causes_are_another_slip_or_say_nothing(
    percival: User, cause: str, answer: str, counted: dict[str, int]
) -> None:
    stored = intake.receive_submission(body=a_body())
    CallRecord.objects.create(
        submission=stored,
        sheet=stored.current,
        check_id="any",
        answer=answer,
        outcome="corrected",
        cause=cause,
        month="2026-11",
        channel="phone",
        by=percival,
    )
    assert selectors.cause_counts() == counted


def test_learning_moves_the_weights_and_nothing_else(percival: User) -> None:
    adopt(percival, "first", route_ask="7/16 in")
    asked = intake.receive_submission(body=a_body(**SHORT))
    called(asked, percival, "D-FWD")
    row = services.learn_causes(by=percival, reason="A season's calls")
    now = selectors.current_limits()
    assert row.cause_counts == {"D-FWD": 1}
    assert (now.cause_counts, now.route_ask) == ({"D-FWD": 1}, inches("7/16"))
    before, after = weights(DEFAULT_LIMITS), weights(now)
    total = sum(before.values())
    assert after["D-FWD"] / total == pytest.approx((before["D-FWD"] / total * 200 + 1) / 201)
    assert after["D-PIN"] / total == pytest.approx(before["D-PIN"] / total * 200 / 201)
    kept = adopt(percival, "later", fit_ask="0.98")
    assert kept.cause_counts == {"D-FWD": 1}, "what was learned stays learned"


def test_nothing_new_is_not_taken_over_twice(percival: User) -> None:
    with pytest.raises(LimitErrors):
        services.learn_causes(by=percival, reason="too early")
    intake.receive_submission(body=a_body())
    services.learn_causes(by=percival, reason="one")
    with pytest.raises(LimitErrors):
        services.learn_causes(by=percival, reason="two")
    assert LimitSet.objects.count() == 1


def test_counting_costs_two_queries(percival: User, django_assert_num_queries: Any) -> None:
    for phone in ("+1 202 555 0101", "+1 202 555 0102", "+1 202 555 0103"):
        called(intake.receive_submission(body=a_body(phone=phone, **SHORT)), percival, "D-FWD")
    with django_assert_num_queries(2):
        assert selectors.cause_counts() == {"D-FWD": 3}
