"""The manager's pages of replays: nothing typed is lost, what is refused is said beside its box."""

from __future__ import annotations

import csv
import html
import io
from typing import Any

import pytest
from django.contrib.auth.models import User
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from intake import jobs
from intake.limit_sets import services as limit_sets
from intake.limit_sets.selectors import current_limits
from intake.services import receive_submission
from quotes.replay import page, selectors, services
from quotes.replay.models import Replay
from tests.given import a_body
from tests.intake.desk_given import stock_the_shelf
from tests.quotes.replay.given import asked, done, fresh
from tests.staff.given import a_manager, logged_in

pytestmark = pytest.mark.django_db
LOG = {"log_id": {"text": "1 15/64", "method": "caliper"}}
MUST = {"needed:fuel": "yes"}


@pytest.fixture(autouse=True)
def _shelf() -> None:
    stock_the_shelf()


@pytest.fixture
def percival() -> User:
    return a_manager()


@pytest.fixture
def manager(percival: User) -> Client:
    return logged_in(percival)


def text_of(answer: Any) -> str:
    return html.unescape(answer.content.decode())


def a_form(**typed: str) -> dict[str, str]:
    today = timezone.localdate().isoformat()
    return {
        "first_day": today,
        "last_day": today,
        "name": "Spring",
        "note": "A try.",
        "ask_key": "one",
        "base": current_limits().name,
        "do": "ask",
        **typed,
    }


# --- The form -----------------------------------------------------------------------------


def test_a_manager_asks_and_is_led_to_its_progress(manager: Client) -> None:
    answer = manager.post(reverse("replay-ask"), a_form(fit_ask="0.99", **MUST))
    replay = Replay.objects.get()
    assert answer["Location"] == reverse("replay", args=[replay.pk])
    assert replay.changes == {"fit_ask": "0.99", "needed:fuel": "yes"}
    assert (replay.name, replay.note) == ("Spring", "A try.")


def test_what_is_refused_is_said_beside_its_box_and_all_stays_typed(manager: Client) -> None:
    typed = a_form(route_ask="7/16", last_day="never", **{"severity:log-clearance": "off"})
    answer = manager.post(reverse("replay-ask"), typed)
    told = text_of(answer)
    assert answer.status_code == 400
    assert 'id="limit-route_ask-error"' in told
    assert "Please write the unit too" in told
    assert 'id="replay-last_day-error"' in told
    assert 'value="7/16"' in told
    assert '<option value="off" selected>' in told
    assert 'value="Spring"' in told
    assert not Replay.objects.exists()


def test_looking_for_a_limit_keeps_what_was_typed_elsewhere(manager: Client) -> None:
    typed = a_form(do="search", q="rudder", route_ask="7/16 in")
    told = text_of(manager.post(reverse("replay-ask"), typed))
    assert 'name="rudder_least"' in told
    assert 'value="7/16 in"' in told
    assert 'name="gap_least"' not in told
    assert not Replay.objects.exists()


def test_limits_that_changed_meanwhile_are_said(manager: Client, percival: User) -> None:
    form = a_form(fit_ask="0.99")
    limit_sets.adopt_limits(name="new", reason="x", by=percival, values={"fit_ask": "0.98"})
    answer = manager.post(reverse("replay-ask"), form)
    assert answer.status_code == 400
    assert "Somebody else changed the limits" in text_of(answer)


def test_an_earlier_replay_is_typed_again(manager: Client, percival: User) -> None:
    old = asked(percival, route_ask="7/16 in", **MUST)
    told = text_of(manager.get(reverse("replay-ask"), {"like": old.pk}))
    assert 'value="11.112500 mm"' in told
    assert '<option value="yes" selected>' in told


# --- On its way, and its end ----------------------------------------------------------------


def test_the_page_asks_again_until_the_end_and_is_then_shown_whole(
    manager: Client, percival: User
) -> None:
    receive_submission(body=a_body())
    replay = asked(percival, **MUST)
    jobs.drain()
    address = reverse("replay-progress", args=[replay.pk])
    under_way = manager.get(address)
    assert "0 of 1 sheets, 0 %" in text_of(under_way)
    assert "HX-Refresh" not in under_way
    done(replay)
    assert manager.get(address)["HX-Refresh"] == "true"


def test_a_replay_is_cancelled(manager: Client, percival: User) -> None:
    replay = asked(percival)
    answer = manager.post(reverse("replay-cancel", args=[replay.pk]), follow=True)
    assert fresh(replay).state == "cancelled"
    assert "It was cancelled" in text_of(answer)


def test_the_result_says_what_moves_and_why(manager: Client, percival: User) -> None:
    asked_for = receive_submission(body=a_body(**LOG))
    replay = done(asked(percival, **{"severity:log-clearance": "note"}))
    told = text_of(manager.get(reverse("replay", args=[replay.pk])))
    assert asked_for.reference in told
    assert "Goes (ask): The shaft has too little room in its log." in told
    assert "severity: the shaft has too little room in its log: <del>ask</del>" in told
    assert "Of no sheet of this period it is known that it was wrong" in told
    let_go = text_of(manager.get(reverse("replay", args=[replay.pk]), {"only": "held"}))
    assert asked_for.reference not in let_go


def test_the_list_is_read_page_by_page_at_the_price_of_a_page(
    manager: Client, percival: User, monkeypatch: Any, django_assert_max_num_queries: Any
) -> None:
    for number in range(7):
        contact = {"phone": f"+1 202 555 01{number:02}", "role": "owner"}
        receive_submission(body=a_body(top={"contact": contact}))
    replay = done(asked(percival, **MUST))
    for module in (page, selectors):
        monkeypatch.setattr(module, "PAGE", 3)
    monkeypatch.setattr(selectors.changed_sheets, "__kwdefaults__", {"only": "", "most": 4})
    seen: list[str] = []
    address: str | None = ""
    while address is not None:
        with django_assert_max_num_queries(9):
            answer = manager.get(reverse("replay", args=[replay.pk]) + address)
        seen += [one.row.submission.reference for one in answer.context["sheets"].rows]
        after = answer.context["sheets"].after
        address = f"?after={after}" if after else None
    assert len(seen) == len(set(seen)) == 7


def test_the_table_has_every_sheet_and_no_formula(manager: Client, percival: User) -> None:
    asked_for = receive_submission(body=a_body(**LOG))
    replay = done(asked(percival, **{"severity:log-clearance": "note"}))
    answer = manager.get(reverse("replay-csv", args=[replay.pk]))
    text = b"".join(answer.streaming_content).decode("utf-8-sig")
    (head, row) = csv.reader(io.StringIO(text))
    assert head[0] == "request"
    assert row[0] == asked_for.reference
    assert row[3:5] == ["ask", "release"]


def test_two_replays_stand_side_by_side(manager: Client, percival: User) -> None:
    receive_submission(body=a_body(**LOG))
    one = done(asked(percival, "one", **{"severity:log-clearance": "note"}))
    two = done(asked(percival, "two", **MUST))
    answer = manager.get(reverse("replay-compare"), {"one": one.pk, "two": two.pk})
    told = text_of(answer)
    assert "1 → 0 (−1)" in told
    assert "1 → 1 (0)" in told
    assert "must be answered: fuel" in told


# --- Adopting -------------------------------------------------------------------------------


def test_a_manager_adopts_what_was_judged(manager: Client, percival: User) -> None:
    replay = done(asked(percival, **MUST))
    address = reverse("replay-adopt", args=[replay.pk])
    refused = manager.post(address, {"name": "2026.2", "reason": ""})
    assert refused.status_code == 400
    assert 'id="adopt-reason-error"' in text_of(refused)
    assert 'value="2026.2"' in text_of(refused)
    told = text_of(manager.post(address, {"name": "2026.2", "reason": "It pays."}, follow=True))
    assert "From now on every sheet is judged by the limits “2026.2”." in told
    assert current_limits().needed == ("fuel",)


def test_who_comes_second_is_told(manager: Client, percival: User) -> None:
    one, two = done(asked(percival, "one", **MUST)), done(asked(percival, "two", fit_ask="0.99"))
    services.adopt(replay=one, name="first", reason="It pays.", by=percival)
    address = reverse("replay-adopt", args=[two.pk])
    answer = manager.post(address, {"name": "second", "reason": "It pays."})
    assert answer.status_code == 409
    assert "Somebody else changed the limits" in text_of(answer)
    assert current_limits().name == "first"
