"""Links that run out, the new ones that come by mail, and what a stranger learns: nothing."""

from __future__ import annotations

import re
from datetime import timedelta
from typing import Any

import pytest
from django.core import mail
from django.core.cache import cache
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from intake.models import Event, Job, Submission
from quotes.links import services
from quotes.links.models import Mail, OldLink
from quotes.links.selectors import find_link, link_until
from tests.quotes.given import a_quote, a_quoter, a_submission, stock_the_shelf

pytestmark = pytest.mark.django_db
CONTACT = {"name": "Wilmot Tarpley", "phone": "+1 202 555 0100", "email": "Wilmot@example.net"}


@pytest.fixture(autouse=True)
def _shelf(settings: Any) -> None:
    stock_the_shelf()
    cache.clear()
    settings.SITE_URL = "https://desk.example.net"


def a_reachable(**changes: Any) -> Submission:
    """Somebody with a mailbox; the mail with the quote is not looked at here."""
    submission = a_submission(top={"contact": CONTACT}, **changes)
    Job.objects.filter(kind="issue_quote").delete()
    return submission


def grow_old(submission: Submission, days: int = 181) -> Submission:
    """Nothing has happened for so long."""
    long_ago = timezone.now() - timedelta(days=days)
    Event.objects.filter(submission=submission).update(at=long_ago)
    OldLink.objects.filter(submission=submission).update(at=long_ago)
    Submission.objects.filter(pk=submission.pk).update(received_at=long_ago)
    return submission


def ask(client: Client, submission: Submission, contact: str, **more: Any) -> Any:
    address = reverse("renew-link", args=[submission.token])
    return client.post(address, {"contact": contact}, **more)


# --- Running out ----------------------------------------------------------------------


def test_a_link_holds_so_long_after_the_last_change(client: Client) -> None:
    submission = grow_old(a_reachable(), days=179)
    assert client.get(reverse("status", args=[submission.token])).status_code == 200
    grow_old(submission, days=181)
    assert client.get(reverse("status", args=[submission.token])).status_code == 410
    Event.objects.update(at=timezone.now() - timedelta(days=10))
    assert client.get(reverse("status", args=[submission.token])).status_code == 200
    assert 169 <= (link_until(submission) - timezone.now()).days <= 170


def test_the_length_is_a_setting(client: Client, settings: Any) -> None:
    settings.LINK_DAYS = 10
    submission = grow_old(a_reachable(), days=11)
    assert client.get(reverse("status", args=[submission.token])).status_code == 410


def test_every_door_behind_a_link_that_has_run_out_is_shut(client: Client) -> None:
    quote = a_quote(top={"contact": CONTACT})
    token = grow_old(quote.submission).token
    doors = [
        client.get(reverse("quote-pdf", args=[token, 1])),
        client.post(reverse("accept", args=[token, 1]), {"name": "W"}),
        client.post(reverse("decline", args=[token, 1]), {"reason": "W"}),
        client.post(reverse("answer", args=[token]), {"sheet_number": 1}),
        client.post(reverse("second-reading", args=[token]), {"sheet_number": 1}),
        client.post(reverse("fit", args=[token]), {}),
    ]
    assert [door.status_code for door in doors] == [410] * 6
    quote.refresh_from_db()
    assert quote.status == "issued"


def test_the_kind_page_tells_nothing_of_the_boat(client: Client) -> None:
    submission = grow_old(a_reachable())
    answer = client.get(reverse("status", args=[submission.token]))
    said = answer.content.decode()
    assert "Nothing is lost" in said
    for secret in (submission.boat_name, submission.reference, "Wilmot", "555"):
        assert secret not in said
    assert "no-store" in answer["Cache-Control"]
    assert "noindex" in answer["X-Robots-Tag"]


# --- Renewing -------------------------------------------------------------------------


@pytest.mark.parametrize("typed", ["wilmot@EXAMPLE.net ", "+1 (202) 555-0100", "12025550100"])
def test_the_customer_gets_a_new_link_by_mail(client: Client, do_jobs: Any, typed: str) -> None:
    submission = grow_old(a_reachable())
    old = submission.token
    assert ask(client, submission, typed)["Location"] == reverse("link-asked")
    assert (mail.outbox, Submission.objects.get().token) == ([], old), "later, not at once"
    do_jobs()
    do_jobs()
    new = Submission.objects.get().token
    (letter,) = mail.outbox
    assert new != old
    assert letter.to == ["Wilmot@example.net"]
    assert letter.subject == "Your new link for Biscuit Barrel"
    link = f"https://desk.example.net/s/{new}/"
    assert link in letter.body
    (page,) = letter.alternatives
    assert page.mimetype == "text/html"
    assert f'href="{link}"' in page.content
    assert client.get(reverse("status", args=[new])).status_code == 200
    assert client.get(reverse("status", args=[old])).status_code == 410
    assert "Nothing is lost" in client.get(reverse("status", args=[old])).content.decode()


@pytest.mark.parametrize("typed", ["somebody@example.net", "12025550101", "+", "@", "0"])
def test_a_stranger_gets_no_mail(client: Client, do_jobs: Any, typed: str) -> None:
    submission = grow_old(a_reachable())
    ask(client, submission, typed)
    do_jobs()
    do_jobs()
    assert mail.outbox == []
    assert Submission.objects.get().token == submission.token


def test_a_customer_without_a_mailbox_is_not_mailed(client: Client, do_jobs: Any) -> None:
    submission = grow_old(a_submission())
    ask(client, submission, "+1 202 555 0100")
    ask(client, submission, "")
    do_jobs()
    assert mail.outbox == []
    assert Submission.objects.get().token == submission.token


def test_asking_often_brings_one_mail(client: Client, do_jobs: Any) -> None:
    submission = grow_old(a_reachable())
    for typed in ("wilmot@example.net", "wilmot@example.net", "12025550100"):
        ask(client, submission, typed)
    do_jobs()
    do_jobs()
    assert len(mail.outbox) == 1


def test_nothing_typed_is_said(client: Client) -> None:
    submission = grow_old(a_reachable())
    answer = ask(client, submission, "  ")
    assert answer.status_code == 400
    assert 'href="#contact"' in answer.content.decode()
    assert not Job.objects.filter(kind="renew_link").exists()


def test_a_link_that_holds_needs_no_new_one(client: Client) -> None:
    submission = a_reachable()
    answer = ask(client, submission, "wilmot@example.net")
    assert answer["Location"] == reverse("status", args=[submission.token])
    assert not Job.objects.filter(kind="renew_link").exists()


def test_the_third_link_shuts_both_before_it(client: Client) -> None:
    submission = a_reachable()
    first = submission.token
    services.renew_link(submission=submission)
    second = submission.token
    services.renew_link(submission=submission)
    codes = [client.get(reverse("status", args=[t])).status_code for t in (first, second)]
    assert codes == [410, 410]
    found = find_link(first)
    assert found is not None
    assert found.old


def test_renewing_counts_as_a_change(client: Client) -> None:
    submission = grow_old(a_reachable())
    services.renew_link(submission=submission)
    assert client.get(reverse("status", args=[submission.token])).status_code == 200


# --- What a stranger learns -----------------------------------------------------------


def answers(client: Client, submission: Submission, typed: str) -> tuple[Any, ...]:
    """Everything that can be told apart from outside, but for the ids every page has."""
    first = ask(client, submission, typed)
    said = client.get(first["Location"])
    headers = {k: v for k, v in said.items() if k not in ("X-Request-ID", "Vary")}
    body = said.content.replace(said["X-Request-ID"].encode(), b"")
    body = re.sub(rb'(name="csrfmiddlewaretoken" value=")\w+', rb"\1", body)  # new every time
    sizes = len(first.content), len(said.content)
    return first.status_code, first["Location"], sizes, body, headers


def test_right_and_wrong_are_answered_the_same(client: Client) -> None:
    submission = grow_old(a_reachable())
    right = answers(client, submission, "wilmot@example.net")
    assert right[0] == 302
    assert right == answers(client, submission, "nobody@example.net")
    assert right == answers(client, submission, "x" * 254)


def work(client: Client, submission: Submission, typed: str) -> list[str]:
    """The statements that one asking costs, without what is in them."""
    with CaptureQueriesContext(connection) as done:
        ask(client, submission, typed)
    values = r"'(?:[^']|'')*'|\b\d+\b|\bs\d+_x\d+"  # and the names of savepoints
    return [re.sub(values, "?", one["sql"]) for one in done.captured_queries]


def test_right_and_wrong_cost_the_same_work(client: Client, settings: Any) -> None:
    """Whether it is the customer is found out later, by a job: nothing here waits for that."""
    settings.LINK_THROTTLE = ""
    submission = grow_old(a_reachable())
    right = work(client, submission, "wilmot@example.net")
    assert len(right) == 4, "the link, a savepoint and its end, the job"
    for typed in ("nobody@example.net", "+1 202 555 0100", "12025550101", "5", "x" * 254):
        assert work(client, submission, typed) == right


def test_nothing_typed_is_kept_in_the_clear(client: Client) -> None:
    submission = grow_old(a_reachable())
    ask(client, submission, "wilmot@example.net")
    job = Job.objects.get(kind="renew_link")
    assert "wilmot" not in f"{job.payload} {job.key}".lower()


def test_an_unknown_link_is_no_page_and_offers_nothing(client: Client) -> None:
    assert client.get(reverse("status", args=["x" * 43])).status_code == 404
    answer = client.post(reverse("renew-link", args=["x" * 43]), {"contact": "a@example.net"})
    assert answer.status_code == 404


def test_one_address_may_not_ask_for_ever(client: Client, settings: Any) -> None:
    settings.LINK_THROTTLE = "3/hour"
    submission = grow_old(a_reachable())
    here = [ask(client, submission, f"{n}@example.net").status_code for n in range(5)]
    assert here == [302, 302, 302, 429, 429]
    there = ask(client, submission, "a@example.net", REMOTE_ADDR="198.51.100.9")
    assert there.status_code == 302
    assert Job.objects.filter(kind="renew_link").count() == 4


def test_a_cache_that_is_away_lets_callers_in(client: Client, settings: Any) -> None:
    settings.CACHES = {
        "default": {
            "BACKEND": "django.core.cache.backends.redis.RedisCache",
            "LOCATION": "redis://127.0.0.1:1/0",
        }
    }
    submission = grow_old(a_reachable())
    assert ask(client, submission, "wilmot@example.net").status_code == 302


# --- The counter ----------------------------------------------------------------------


def test_staff_see_send_and_renew_a_link(client: Client, do_jobs: Any) -> None:
    submission = a_reachable()
    client.force_login(a_quoter())
    assert (
        reverse("desk-link", args=[submission.reference])
        in client.get(reverse("submission", args=[submission.reference])).content.decode()
    )
    address = reverse("desk-link", args=[submission.reference])
    said = client.get(address)
    assert f"http://testserver/s/{submission.token}/" in said.content.decode()
    assert "It holds until" in said.content.decode()
    assert "no-store" in said["Cache-Control"]
    assert client.post(address, {"do": "renew"}).status_code == 302
    new = Submission.objects.get().token
    assert new != submission.token
    for _ in range(2):
        client.post(address, {"do": "send"})
    do_jobs()
    (letter,) = mail.outbox
    assert new in letter.body


def test_a_link_that_has_run_out_is_said_to_the_counter(client: Client) -> None:
    submission = grow_old(a_submission())
    client.force_login(a_quoter())
    said = client.get(reverse("desk-link", args=[submission.reference])).content.decode()
    assert "It has run out on" in said
    assert "Send it by mail" not in said
    client.post(reverse("desk-link", args=[submission.reference]), {"do": "send"})
    assert not Mail.objects.exists()


def test_only_the_counter_sees_a_link(client: Client) -> None:
    from django.contrib.auth.models import User

    submission = a_reachable()
    address = reverse("desk-link", args=[submission.reference])
    assert client.get(address).status_code == 302
    client.force_login(User.objects.create_user("nobody", password="a-long-password-here"))
    assert client.get(address).status_code == 403
    assert client.post(address, {"do": "renew"}).status_code == 403
    client.force_login(a_quoter())
    assert client.get(reverse("desk-link", args=["FG-NONONO"])).status_code == 404


def test_a_new_link_is_long_and_its_own() -> None:
    submission = a_reachable()
    seen = {submission.token}
    for _ in range(5):
        services.renew_link(submission=submission)
        seen.add(submission.token)
    assert len(seen) == 6
    assert all(re.fullmatch(r"[\w-]{43}", token) for token in seen)
