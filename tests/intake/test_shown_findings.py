"""How findings look at the desk: causes with shares, three at most, the question on top."""

from __future__ import annotations

import html
from typing import Any

import pytest
from django.template.loader import render_to_string
from django.test import Client
from django.urls import reverse

from intake.desk_show import Shown
from intake.models import Submission
from tests.intake.desk_given import a_call, a_new_call, a_person, stock_the_shelf

pytestmark = pytest.mark.django_db
HALF = a_call(face_to_strut_aft="43 5/8")
LIKELY = "Most likely: measured from the aft face of the shaft flange"


@pytest.fixture
def counter(client: Client) -> Client:
    stock_the_shelf()
    client.force_login(a_person(), backend="django.contrib.auth.backends.ModelBackend")
    return client


def text_of(answer: Any) -> str:
    return " ".join(html.unescape(answer.content.decode()).split())


def saved(counter: Client, boxes: dict[str, Any]) -> Submission:
    answer = counter.post(a_new_call(), boxes)
    assert answer.status_code == 302, answer.content.decode()
    return Submission.objects.get()


def test_the_desk_sees_likely_causes_with_shares_while_typing(counter: Client) -> None:
    page = text_of(counter.post(a_new_call("desk-keep"), HALF))
    assert LIKELY in page
    assert " %)" in page[page.index(LIKELY) :]
    assert reverse("checks") + "#route-boat-vs-old" in page


def test_the_submission_page_and_the_call_card_name_them_too(counter: Client) -> None:
    stored = saved(counter, HALF)
    assert LIKELY in text_of(counter.get(reverse("submission", args=[stored.reference])))
    card = counter.get(
        reverse("record-call", args=[stored.reference]), {"check": "route-boat-vs-old"}
    )
    beside = text_of(card).partition("What it may be, and what to listen for")[2]
    assert LIKELY.removeprefix("Most likely: ") in beside
    assert "do not read these out" in text_of(card)
    assert "43 5/8" not in text_of(card)


def test_the_customers_review_names_them_without_shares(client: Client) -> None:
    stock_the_shelf()
    answer = client.post(reverse("measure"), HALF)
    page = text_of(client.get(answer["Location"]))
    assert "What it often turns out to be: measured from the aft face" in page
    main = page[page.index("What we would ask you") : page.index("<dl")]
    assert "%" not in main
    assert "Most likely" not in page


def a_shown(verdict: str, count: int) -> dict[str, Any]:
    finding = {
        "check": "gap-now-plausible",
        "severity": "ask",
        "message": "It does not add up.",
        "question": "What did you see?",
        "answers": ["gap_now"],
        "likely": [],
    }
    return {
        "verdict": verdict,
        "findings": [finding] * count,
        "next_question": {"answer": "gap_now", "ask": "How wide is it?"},
    }


@pytest.mark.parametrize(("count", "folded"), [(0, ""), (3, ""), (4, "and 1 more")])
def test_three_findings_are_shown_and_the_rest_folded(count: int, folded: str) -> None:
    shown = Shown(a_shown("ask", count))
    page = render_to_string("intake/_verdict_full.html", {"shown": shown})
    before, fold, behind = page.partition("<details")
    assert before.count('<section class="finding') == min(count, 3)
    assert behind.count('<section class="finding') == max(count - 3, 0)
    assert bool(fold) == bool(folded)
    assert folded in page


@pytest.mark.parametrize(
    ("verdict", "says"),
    [("ask", "Ask next"), ("stop", "Ask next"), ("release", "Not needed, but worth asking")],
)
def test_the_next_question_stands_on_top(verdict: str, says: str) -> None:
    shown = Shown(a_shown(verdict, 1 if verdict != "release" else 0))
    page = render_to_string("intake/_verdict_full.html", {"shown": shown})
    assert says in page
    assert page.index("How wide is it?") < page.index("desk-call")
