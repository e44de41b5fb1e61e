"""Failure of a question before and after other words, counted by hand."""

from __future__ import annotations

from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from intake.domain.shares import Share, newcombe
from intake.models import QuestionWording
from quotes.insight.wording.selectors import trials
from tests.quotes.insight.given import a_fact, a_mistake
from tests.staff.given import a_member, logged_in

SLUG = "gap_now"


def test_the_difference_of_two_shares_is_newcombes() -> None:
    """56 of 70 less 48 of 80: 0.0524 to 0.3339 by method 10 of Newcombe (1998); from memory."""
    assert newcombe(Share(56, 70), Share(48, 80)) == pytest.approx((0.0524, 0.3339), abs=5e-5)
    assert newcombe(Share(0, 0), Share(3, 9)) == (-1.0, 1.0)


@pytest.mark.django_db
def test_before_and_after_are_equally_long_and_only_this_answer_counts() -> None:
    now = timezone.now()
    percival = a_member("percival", "manager")
    row = QuestionWording.objects.create(
        slug=SLUG, number=1, ask="How wide is it?", reason="unclear", adopted_by=percival,
        adopted_at=now - timedelta(days=30),
    )  # fmt: skip
    for days, wrong in ((61, True), (45, True), (40, True), (35, False), (20, False), (10, False)):
        at = now - timedelta(days=days)
        fact = a_fact(month=f"{at:%Y-%m}", answered=[SLUG], received_at=at)
        if wrong:
            a_mistake(fact, "G-ASSUME", at.date(), answer=SLUG)
            a_mistake(fact, "D-HUB", at.date(), answer="hub_length")
    a_fact(month=f"{now:%Y-%m}", answered=["gap_now_other"], received_at=now - timedelta(days=5))
    (one,) = trials([row])
    assert (one.days, one.before, one.after) == (30, Share(2, 3), Share(0, 2))
    page = logged_in(percival).get(reverse("wording")).content.decode()
    assert "2 of 3" in page
    assert "0 of 2" in page
