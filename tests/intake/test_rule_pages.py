"""The pages of checks and limits: who may read, who may change, what they say."""

from __future__ import annotations

import html
from typing import Any

import pytest
from django.core.management import CommandError, call_command
from django.test import Client
from django.urls import reverse

from intake import check_book
from intake import services as intake
from intake.calling.services import record_call
from intake.check_book import as_markdown, chapters
from intake.checks import CHECKS
from intake.domain.limit_values import limit_fields
from intake.domain.limit_words import label
from intake.limit_sets import selectors, services
from intake.management.commands import describe_checks
from intake.models import LimitSet
from tests.intake.bodies import PUT_RIGHT, SHORT, a_body
from tests.intake.desk_given import RIGHTS, a_person, stock_the_shelf

pytestmark = pytest.mark.django_db


def logged_in(group: str) -> Client:
    client = Client()
    person = a_person(group, f"one-{group}")
    client.force_login(person, backend="django.contrib.auth.backends.ModelBackend")
    return client


@pytest.fixture
def manager() -> Client:
    return logged_in("manager")


def text_of(answer: Any) -> str:
    return html.unescape(answer.content.decode())


def a_change(**changes: str) -> dict[str, str]:
    return {
        "name": "2026.2",
        "reason": "The season showed it.",
        "based_on": selectors.current_limits().name,
        "route_ask": "7/16 in",
        **changes,
    }


# --- Who -------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("group", "name", "status"),
    [
        *((group, "checks", 403 if group == "stranger" else 200) for group in RIGHTS),
        ("counter", "limits", 200),
        ("manager", "limits", 200),
        ("machinist", "limits", 403),
        ("stranger", "limits", 403),
    ],
)
def test_who_may_read(group: str, name: str, status: int) -> None:
    assert logged_in(group).get(reverse(name)).status_code == status


@pytest.mark.parametrize("name", ["limits-adopt", "limits-learn"])
def test_only_a_manager_changes_anything(name: str) -> None:
    assert Client().post(reverse(name)).status_code == 302
    for group in ("counter", "machinist"):
        assert logged_in(group).post(reverse(name), a_change()).status_code == 403
    assert logged_in("manager").get(reverse(name)).status_code == 405
    assert not LimitSet.objects.exists()


def test_the_counter_reads_limits_and_has_no_boxes() -> None:
    page = text_of(logged_in("counter").get(reverse("limits")))
    assert "limit-route_ask" not in page
    assert "3/8 in · 9.525 mm" in page


# --- Limits ----------------------------------------------------------------------------


def test_every_limit_stands_on_the_page_with_its_words(manager: Client) -> None:
    page = text_of(manager.get(reverse("limits")))
    for name, field in limit_fields().items():
        assert label(name) in page
        assert (f'name="{name}"' in page) == field.is_editable


def test_a_manager_changes_a_limit_and_everybody_sees_it(manager: Client) -> None:
    answer = manager.post(reverse("limits-adopt"), a_change(), follow=True)
    assert answer.redirect_chain == [(reverse("limits"), 302)]
    page = text_of(answer)
    assert "judged by the limits “2026.2”" in page
    assert "<strong>7/16 in · 11.113 mm</strong>" in page
    assert "<del>3/8 in · 9.525 mm</del> → 7/16 in · 11.113 mm" in page
    assert "The season showed it." in page
    checks = text_of(manager.get(reverse("checks")))
    assert "7/16 in · 11.113 mm" in checks
    assert "usually 3/8 in · 9.525 mm" in checks


def test_what_was_typed_is_not_lost(manager: Client) -> None:
    answer = manager.post(reverse("limits-adopt"), a_change(fit_ask="97", name=""))
    page = text_of(answer)
    assert answer.status_code == 400
    assert 'value="7/16 in"' in page
    assert 'value="97"' in page
    assert "The season showed it." in page
    assert "Please stay between 0 and 1. Now it is 0.97; the usual value is 0.97." in page
    assert not LimitSet.objects.exists()


def test_who_was_overtaken_is_told_and_loses_nothing(manager: Client) -> None:
    late = a_change(name="late")
    manager.post(reverse("limits-adopt"), a_change())
    answer = manager.post(reverse("limits-adopt"), late)
    assert answer.status_code == 409
    assert "Somebody else changed the limits" in text_of(answer)
    assert 'value="7/16 in"' in text_of(answer)
    assert [row.name for row in LimitSet.objects.all()] == ["2026.2"]


def test_the_desk_takes_over_what_it_has_recorded(manager: Client) -> None:
    stock_the_shelf()
    asked = intake.receive_submission(body=a_body(**SHORT))
    maud = a_person("manager", "maud")
    record_call(
        submission=asked,
        sheet_number=1,
        by=maud,
        check_id=next(f["check"] for f in asked.current.outcome["findings"]),
        outcome="corrected",
        said_by="Wilmot",
        cause="D-FWD",
        answers=PUT_RIGHT,
    )
    intake.receive_submission(body=a_body(phone="+1 202 555 0177"))
    page = text_of(manager.get(reverse("limits")))
    assert "Take over what the desk has recorded: 1 cause in 2 sheets" in page
    boxes = {"based_on": selectors.current_limits().name}
    answer = manager.post(reverse("limits-learn"), boxes, follow=True)
    assert selectors.current_limits().cause_counts == {"D-FWD": 1, "OK": 1}
    assert "have learned from 2 of them" in text_of(answer)
    assert "Take over" not in text_of(answer)
    assert "causes learned from 2 sheets" in text_of(answer)
    assert manager.post(reverse("limits-learn"), boxes).status_code == 409


def test_the_page_costs_the_same_however_many_sets(
    manager: Client, django_assert_max_num_queries: Any
) -> None:
    percival = a_person("manager", "percival")
    for number in range(5):
        services.adopt_limits(
            name=f"set {number}",
            reason="why",
            by=percival,
            values={"fit_ask": f"0.9{number}1"} if number else {"route_ask": "7/16 in"},
        )
    with django_assert_max_num_queries(10):
        manager.get(reverse("limits"))


# --- Checks ----------------------------------------------------------------------------


def test_every_check_is_explained_once_in_phone_order(manager: Client) -> None:
    page = manager.get(reverse("checks")).content.decode()
    places = [page.index(f'id="{check.id}"') for check in CHECKS]
    assert places == sorted(places)
    every = [check.id for chapter in chapters() for check in chapter.checks]
    assert every[: len(CHECKS)] == [check.id for check in CHECKS]  # the shop's own come last
    assert page.count('class="check"') == len(every)
    shown = html.unescape(page)
    for check in CHECKS:
        assert check.ask in shown
        assert check.why.partition("\n")[0] in shown


def test_no_code_word_reaches_a_manager() -> None:
    for chapter in chapters():
        for check in chapter.checks:
            told = [chapter.title, check.title, check.happens, check.graded, check.holds]
            told += [limit.words + " " + limit.now for limit in check.limits]
            for text in told:
                assert "_" not in text, text
                assert "`" not in text, text
                assert "nm=" not in text, text
                assert "Length(" not in text, text


def test_the_paper_of_checks_is_not_stale() -> None:
    """After a change: ``manage.py describe_checks``."""
    assert describe_checks.HOME.read_text("utf-8") == as_markdown()
    call_command("describe_checks", check=True)


def test_the_command_writes_the_paper_and_notices_a_stale_one(
    tmp_path: Any, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr(describe_checks, "HOME", tmp_path / "checks.md")
    with pytest.raises(CommandError):
        call_command("describe_checks", check=True)
    call_command("describe_checks")
    shop = sum(len(chapter.checks) for more in check_book._more for chapter in more())
    assert f"{len(CHECKS) + shop} checks" in capsys.readouterr().out
    call_command("describe_checks", check=True)
    paper = (tmp_path / "checks.md").read_text("utf-8")
    for check in CHECKS:
        assert f"**Called** {check.id} in" in paper


# --- Severities and musts --------------------------------------------------------------


def test_a_manager_sets_a_severity_and_a_must_and_both_stand_in_the_history(
    manager: Client,
) -> None:
    typed = {"route_ask": "", "severity:log-clearance": "note", "needed:fuel": "yes"}
    answer = manager.post(reverse("limits-adopt"), a_change(**typed), follow=True)
    page = text_of(answer)
    assert "severity: the shaft has too little room in its log: <del>ask</del> → note" in page
    assert "must be answered: fuel: <del>no</del> → yes" in page
    limits = selectors.current_limits()
    assert (limits.severities, limits.needed) == ({"log-clearance": "note"}, ("fuel",))
    book = {one.id: one for chapter in chapters(limits) for one in chapter.checks}
    assert book["log-clearance"].happens.startswith("Note:")
    assert book["log-clearance"].happens.endswith("By itself it is a question.")
    assert book["log-clearance"].graded == "By how much is wrong it may also be a question."


def test_a_severity_that_is_refused_is_said_beside_its_box(manager: Client) -> None:
    typed = a_change(**{"severity:missing-critical": "off"})
    answer = manager.post(reverse("limits-adopt"), typed)
    page = text_of(answer)
    assert answer.status_code == 400
    assert 'id="limit-severity-missing-critical-error"' in page
    assert '<option value="off" selected>' in page
    assert not LimitSet.objects.exists()
