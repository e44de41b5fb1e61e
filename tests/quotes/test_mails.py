"""Mails leave once, whatever fails and however many ask; reminders go to whom they help."""

from __future__ import annotations

import smtplib
import socket
import threading
from datetime import timedelta
from typing import Any

import pytest
from django.core import mail
from django.core.mail.backends.locmem import EmailBackend
from django.db import connection, transaction
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from intake import jobs
from intake.models import Event, Job, Submission
from quotes import services as quoting
from quotes.links import services
from quotes.links.models import Mail
from quotes.models import Quote, QuoteDocument
from tests.quotes.given import a_quote, a_quoter, a_submission, correct, stock_the_shelf, ticked

pytestmark = pytest.mark.django_db
CONTACT = {"name": "Wilmot Tarpley", "phone": "+1 202 555 0100", "email": "wilmot@example.net"}
TOP = {"contact": CONTACT}
NO_DIRECTION = {"flange_direction": {"state": "cannot_measure"}}


@pytest.fixture(autouse=True)
def _shelf(settings: Any) -> None:
    stock_the_shelf()
    settings.SITE_URL = "https://desk.example.net"


def wait(submission: Submission, days: float) -> None:
    """So many days pass and nothing happens."""
    then = timezone.now() - timedelta(days=days)
    Event.objects.filter(submission=submission).update(at=then)
    Quote.objects.filter(submission=submission).update(issued_at=then)


def an_open_question(**changes: Any) -> Submission:
    return a_submission(top=TOP, **{**NO_DIRECTION, **changes})


# --- Who is reminded ------------------------------------------------------------------


def test_an_open_question_is_reminded_of_once(do_jobs: Any) -> None:
    submission = an_open_question()
    wait(submission, 2.9)
    assert services.remind() == 0
    wait(submission, 3.1)
    assert services.remind() == 1
    assert services.remind() == 0
    do_jobs()
    do_jobs()
    wait(submission, 9)
    assert services.remind() == 0
    (letter,) = mail.outbox
    assert letter.subject == "A question about Biscuit Barrel"
    assert f"https://desk.example.net/s/{submission.token}/" in letter.body
    assert "44 1/8" not in letter.body


def test_a_quote_is_reminded_of_once(do_jobs: Any) -> None:
    quote = a_quote(top=TOP)
    do_jobs()
    mail.outbox.clear()  # the quote itself
    wait(quote.submission, 6.9)
    assert services.remind() == 0
    wait(quote.submission, 7.1)
    assert services.remind() == 1
    do_jobs()
    wait(quote.submission, 12)
    assert services.remind() == 0
    (letter,) = mail.outbox
    assert letter.subject == "Your quote for Biscuit Barrel"
    assert quote.number in letter.body
    assert quote.number in letter.alternatives[0].content


def test_the_days_are_settings(settings: Any) -> None:
    settings.REMIND_OF_QUESTION_DAYS = 1
    submission = an_open_question()
    wait(submission, 1.1)
    assert services.remind() == 1


@pytest.mark.parametrize("days", [40, 400])
def test_nobody_is_reminded_out_of_the_blue(days: int) -> None:
    submission = an_open_question()
    wait(submission, days)
    assert services.remind() == 0


def test_who_left_no_address_is_not_reminded() -> None:
    submission = a_submission(**NO_DIRECTION)
    wait(submission, 4)
    assert services.remind() == 0


def test_what_only_a_person_can_settle_is_no_reminder(do_jobs: Any) -> None:
    submission = a_submission(top=TOP, gap_now={"text": "4", "method": "rule"})
    wait(submission, 4)
    services.remind()
    do_jobs()
    assert mail.outbox == []
    assert Mail.objects.get().dropped == "nothing the customer can answer"
    assert services.remind() == 0, "nothing has changed since"
    correct(submission, gap_now={"text": "3/4", "method": "drill_shank"}, **NO_DIRECTION)
    Mail.objects.update(made_at=timezone.now() - timedelta(days=9))
    wait(submission, 4)
    assert services.remind() == 1
    do_jobs()
    assert len(mail.outbox) == 1


@pytest.mark.parametrize("answer", ["accept", "decline"])
def test_a_quote_answered_meanwhile_is_not_reminded_of(do_jobs: Any, answer: str) -> None:
    quote = a_quote(top=TOP)
    Mail.objects.all().delete()  # the quote itself
    wait(quote.submission, 8)
    services.remind()
    if answer == "accept":
        quoting.accept_quote(quote=quote, name="W", confirmations=ticked(quote))
    else:
        quoting.decline_quote(quote=quote, reason="price")
    do_jobs()
    assert Mail.objects.get(kind="quote").dropped == "the quote waits no more"
    assert [letter.subject for letter in mail.outbox if "Your quote" in letter.subject] == []


def test_the_sweep_reminds(monkeypatch: pytest.MonkeyPatch) -> None:
    submission = an_open_question()
    wait(submission, 4)
    monkeypatch.setattr(jobs, "_chores", dict.fromkeys(jobs._chores, -jobs.CHORE_SECONDS))
    jobs.sweep()
    assert len(mail.outbox) == 1
    Mail.objects.all().delete()
    jobs.sweep()
    assert not Mail.objects.exists(), "the chores rest for a while"


def test_a_chore_that_stumbles_stops_no_work(monkeypatch: pytest.MonkeyPatch) -> None:
    def stumble() -> None:
        raise RuntimeError("no")

    monkeypatch.setattr(jobs, "_chores", {stumble: -jobs.CHORE_SECONDS})
    services.send_link(submission=an_open_question())
    assert jobs.sweep() == 1
    assert len(mail.outbox) == 1


# --- Switching off --------------------------------------------------------------------


def test_reminders_are_switched_off_by_the_mails_own_link(client: Client, do_jobs: Any) -> None:
    submission = an_open_question()
    wait(submission, 4)
    services.remind()
    do_jobs()
    (letter,) = mail.outbox
    address = letter.extra_headers["List-Unsubscribe"].strip("<>")
    assert address in letter.body
    assert address in letter.alternatives[0].content
    assert letter.extra_headers["List-Unsubscribe-Post"] == "List-Unsubscribe=One-Click"
    path = address.removeprefix("https://desk.example.net")
    assert "Switch reminders off?" in client.get(path).content.decode()
    Mail.objects.all().delete()
    assert services.remind() == 1, "a look changes nothing"
    Mail.objects.all().delete()
    for _ in range(2):
        strict = Client(enforce_csrf_checks=True)
        answer = strict.post(path, {"List-Unsubscribe": "One-Click"})
        assert "No more reminders" in answer.content.decode()
    assert services.remind() == 0


def test_a_reminder_on_its_way_is_stopped(do_jobs: Any) -> None:
    submission = an_open_question()
    wait(submission, 4)
    services.remind()
    services.switch_reminders_off(submission_id=submission.pk)
    do_jobs()
    assert mail.outbox == []
    services.send_link(submission=submission)
    do_jobs()
    assert len(mail.outbox) == 1, "a link that was asked for is no reminder"


def test_nobody_else_can_switch_them_off(client: Client) -> None:
    submission = an_open_question()
    for made_up in (f"{submission.pk}", f"{submission.pk}:x", "x"):
        assert client.post(reverse("quiet", args=[made_up])).status_code == 404


# --- Once -----------------------------------------------------------------------------


class Refuses(EmailBackend):
    """A mail server that is away, or will not have this address."""

    error: OSError = ConnectionRefusedError("nobody there")

    def send_messages(self, messages: Any) -> int:
        raise self.error


@pytest.fixture
def away(settings: Any) -> Any:
    settings.EMAIL_BACKEND = f"{__name__}.Refuses"
    return settings


def make_due() -> None:
    Job.objects.filter(done_at=None).update(due=timezone.now() - timedelta(seconds=1))


def test_a_mail_server_that_is_away_for_long_loses_nothing(away: Any, do_jobs: Any) -> None:
    services.send_link(submission=an_open_question())
    for _ in range(jobs.ATTEMPTS + 4):
        make_due()
        assert do_jobs() == 1
    waiting = Job.objects.get(kind="send_mail", done_at=None)
    assert not waiting.dead
    assert waiting.due > timezone.now() + timedelta(minutes=55)
    assert Mail.objects.get().sending_at is None
    away.EMAIL_BACKEND = "django.core.mail.backends.locmem.EmailBackend"
    make_due()
    do_jobs()
    do_jobs()
    assert len(mail.outbox) == 1
    assert Mail.objects.get().sent_at


def test_days_of_silence_end_with_a_job_for_a_person(
    away: Any, do_jobs: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(services, "TRIES", 2)
    services.send_link(submission=an_open_question())
    for _ in range(2 + jobs.ATTEMPTS):
        make_due()
        do_jobs()
    job = Job.objects.get(kind="send_mail", dead=True)
    assert "nobody there" in job.error


def test_an_address_that_does_not_exist_is_not_tried_again(
    away: Any, do_jobs: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    refused = smtplib.SMTPRecipientsRefused({"wilmot@example.net": (550, b"unknown")})
    monkeypatch.setattr(Refuses, "error", refused)
    services.send_link(submission=an_open_question())
    make_due()
    do_jobs()
    assert Mail.objects.get().dropped == "the address was refused"
    assert not Job.objects.filter(kind="send_mail", done_at=None).exists()


def test_a_worker_that_died_while_sending_sends_no_second_mail(do_jobs: Any) -> None:
    services.send_link(submission=an_open_question())
    Mail.objects.update(sending_at=timezone.now())
    do_jobs()
    assert mail.outbox == []


def test_a_copy_shows_as_the_same_mail() -> None:
    from quotes.links import letters

    services.send_link(submission=an_open_question())
    one, two = (letters.write(Mail.objects.get()) for _ in range(2))
    assert one.extra_headers["Message-ID"] == two.extra_headers["Message-ID"]
    assert one.extra_headers["Message-ID"].endswith("@desk.example.net>")


def test_a_boats_name_breaks_no_header(do_jobs: Any) -> None:
    name = {"name": "Otter\nBcc: all@example.net <b>&"}
    submission = an_open_question(boat_name_and_station=name)
    services.send_link(submission=submission)
    do_jobs()
    (letter,) = mail.outbox
    assert letter.recipients() == ["wilmot@example.net"]
    assert "\n" not in letter.subject
    assert "<b>" in letter.body
    assert "<b>&" not in letter.alternatives[0].content


# --- What each says, and with which paper ------------------------------------------------


def test_every_channel_gets_its_version_by_mail_once_with_the_very_paper(do_jobs: Any) -> None:
    quote = a_quote(top=TOP)
    do_jobs()
    do_jobs()
    (letter,) = mail.outbox
    (paper,) = letter.attachments
    assert paper.mimetype == "application/pdf"
    assert paper.filename == f"quote-{quote.number}-v1.pdf"
    assert paper.content == bytes(QuoteDocument.objects.get(quote=quote).content)
    assert "Here is quote" in letter.body
    assert letter.alternatives[0].mimetype == "text/html"
    assert "As you told us on the phone" not in letter.body


def test_what_was_asked_for_on_the_page_is_seen_there(do_jobs: Any) -> None:
    quote = a_quote(top=TOP)
    Mail.objects.all().delete()
    quoting.note_opened(quote=quote)
    with transaction.atomic():
        services.ask_for_offer(quote, asked_on_page=True)
    waits = Job.objects.get(key__startswith="send_mail", done_at=None, due__gt=timezone.now())
    assert waits.due > timezone.now() + timedelta(minutes=14)
    make_due()
    do_jobs()
    assert mail.outbox == []
    assert Mail.objects.get().dropped == "it was opened on the customer's own page"


def test_what_was_asked_for_on_the_page_and_not_opened_is_mailed_after_all(do_jobs: Any) -> None:
    quote = a_quote(top=TOP)
    Mail.objects.all().delete()
    with transaction.atomic():
        services.ask_for_offer(quote, asked_on_page=True)
    make_due()
    do_jobs()
    assert len(mail.outbox) == 1


def test_an_acceptance_is_confirmed_with_version_price_days_and_deposit(do_jobs: Any) -> None:
    quote = a_quote(top=TOP)
    quoting.accept_quote(quote=quote, name="Wilmot Tarpley", confirmations=ticked(quote))
    do_jobs()
    (letter,) = [one for one in mail.outbox if one.subject.startswith("Accepted")]
    for words in ("Version 1", quote.number, "Wilmot Tarpley", "697.07", "Leaves us", "348.54"):
        assert words in letter.body, words
        assert words in letter.alternatives[0].content, words


# --- A server that is slow, silent or gone: on the wire (RFC 5321) -------------------------


class Server(threading.Thread):
    """A mail server for one call: it answers by the book until ``silent_at``, then no more."""

    def __init__(self, silent_at: str = "") -> None:
        super().__init__(daemon=True)
        self.silent_at, self.kept = silent_at, b""
        self.socket = socket.create_server(("127.0.0.1", 0))
        self.port = self.socket.getsockname()[1]

    def run(self) -> None:
        with self.socket:
            call, _from = self.socket.accept()
        with call, call.makefile("rb") as lines:
            if self.silent_at == "greeting":
                lines.read()
                return
            call.sendall(b"220 here\r\n")
            for line in lines:
                if not self._answers(call, line, lines):
                    lines.read()
                    return

    def _answers(self, call: socket.socket, line: bytes, lines: Any) -> bool:
        word = line[:4].upper().strip().decode()
        if word == "DATA":
            call.sendall(b"354 go on\r\n")
            self.kept = b"".join(iter(lines.readline, b".\r\n"))
        if word == self.silent_at:
            return False
        call.sendall(b"221 bye\r\n" if word == "QUIT" else b"250 yes\r\n")
        return word != "QUIT"


@pytest.fixture
def on_the_wire(settings: Any) -> Any:
    def speak(server: Server | None) -> None:
        settings.EMAIL_BACKEND = "django.core.mail.backends.smtp.EmailBackend"
        settings.EMAIL_HOST, settings.EMAIL_TIMEOUT = "127.0.0.1", 0.2
        if server is None:
            with socket.create_server(("127.0.0.1", 0)) as nobody:
                settings.EMAIL_PORT = nobody.getsockname()[1]
            return
        settings.EMAIL_PORT = server.port
        server.start()

    return speak


@pytest.mark.parametrize("silent_at", ["", "greeting"], ids=["down", "silent from the start"])
def test_a_server_that_was_given_nothing_is_asked_again(
    on_the_wire: Any, do_jobs: Any, silent_at: str
) -> None:
    server = Server(silent_at) if silent_at else None
    a_quote(top=TOP)
    on_the_wire(server)
    do_jobs()
    assert (Mail.objects.get().sending_at, Mail.objects.get().dropped) == (None, "")
    up = Server()
    on_the_wire(up)
    make_due()
    do_jobs()
    assert Mail.objects.get().sent_at
    assert b"JVBERi" in up.kept, "%PDF, as base64 begins it"


def test_a_server_that_falls_silent_with_the_mail_in_its_hands_is_not_given_two(
    on_the_wire: Any, do_jobs: Any, client: Client
) -> None:
    quote = a_quote(top=TOP)
    silent, second = Server("DATA"), Server()
    on_the_wire(silent)
    do_jobs()
    assert silent.kept
    on_the_wire(second)
    make_due()
    do_jobs()
    assert second.kept == b""
    assert Mail.objects.get().dropped == "the mail server fell silent, so it may have left"
    client.force_login(a_quoter())
    page = client.get(reverse("desk-issue", args=[quote.submission.reference])).content.decode()
    assert "Send it once more" in page
    for _ in range(2):
        client.post(reverse("desk-mail-again", args=[quote.submission.reference]))
    do_jobs()
    assert second.kept
    assert Mail.objects.count() == 2


@pytest.mark.django_db(transaction=True)
def test_two_workers_send_one_mail() -> None:
    submission = an_open_question()
    wait(submission, 4)
    start, errors = threading.Barrier(3), []

    def work() -> None:
        try:
            start.wait()
            services.remind()
            for _ in range(3):
                jobs.drain()
        except Exception as error:
            errors.append(error)
        finally:
            connection.close()

    workers = [threading.Thread(target=work) for _ in range(3)]
    for one in workers:
        one.start()
    for one in workers:
        one.join()
    assert errors == []
    assert len(mail.outbox) == 1
    assert Mail.objects.count() == 1
