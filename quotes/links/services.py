"""Renewing links, asking for mails, sending them once. Each function is one whole step."""

from __future__ import annotations

import logging
import secrets
from collections.abc import Callable, Mapping
from datetime import datetime, timedelta
from typing import Any

from django.db import transaction
from django.utils import timezone

from intake.inserts import insert
from intake.jobs import enqueue
from intake.models import Submission
from quotes.bundles.models import Bundle
from quotes.links import letters, post, selectors
from quotes.links.digests import contact_digests, is_theirs, token_digest
from quotes.links.models import Mail, NoReminders, OldLink
from quotes.models import Quote
from quotes.selectors import offer_key

log = logging.getLogger(__name__)

# Asking again within this time brings no second mail.
_QUIET_FOR = timedelta(minutes=15)
FIRST_PAUSE, LONGEST_PAUSE = timedelta(minutes=5), timedelta(hours=1)
TRIES = 80  # about three days of a mail server that does not answer


# --- Renewing -------------------------------------------------------------------------


def ask_for_link(*, submission: Submission, typed: str) -> None:
    """Somebody says they are the customer and wants a new link.

    What is written is the same whether that is so or not: a job that finds out later, so neither
    the answer nor the time it takes tells anything. What was typed is kept as a digest only.
    """
    digests = contact_digests(typed[:300])
    slot = int(timezone.now().timestamp() // _QUIET_FOR.total_seconds())
    key = f"renew_link:{submission.pk}:{slot}:{token_digest(''.join(digests.values()))[:24]}"
    payload = {"submission_id": submission.pk, "digests": digests}
    with transaction.atomic():
        enqueue(kind="renew_link", payload=payload, key=key)


def prepare_renewal(*, submission_id: int, digests: dict[str, str]) -> Callable[[], object] | None:
    """The second half: if it is them, a new link and a mail with it; None where there is none."""
    submission = selectors.with_mailbox(submission_id)
    if submission is None or not is_theirs(submission, digests):
        return None

    def finish() -> None:
        if not selectors.renewed_since(submission, timezone.now() - _QUIET_FOR):
            renew_link(submission=submission)
            ask_for_mail(submission=submission, kind="link", key=_link_key(submission))

    return finish


@transaction.atomic
def renew_link(*, submission: Submission) -> Submission:
    """A new link takes the old one's place, which holds no more from now on."""
    old, new = submission.token, secrets.token_urlsafe(32)
    if Submission.objects.filter(pk=submission.pk, token=old).update(token=new):
        OldLink.objects.create(submission=submission, digest=token_digest(old))
        submission.token = new
    else:  # somebody else renewed it a moment ago: theirs is as good
        submission.refresh_from_db(fields=["token"])
    return submission


@transaction.atomic
def send_link(*, submission: Submission) -> None:
    """Staff send the customer the link as it is now: once for each link."""
    ask_for_mail(submission=submission, kind="link", key=_link_key(submission))


def _link_key(submission: Submission) -> str:
    return f"link:{submission.pk}:{token_digest(submission.token)[:24]}"


# --- Mails ----------------------------------------------------------------------------


def ask_for_mail(
    *,
    submission: Submission,
    kind: str,
    key: str,
    quote: Quote | None = None,
    bundle: Bundle | None = None,
    later: datetime | None = None,
) -> bool:
    """Write one mail and the work of sending it, in the caller's transaction; once for a key.

    ``quote``, ``bundle``: the version it speaks of; who left no address gets none of it.
    ``later``: it waits until then, and is left out if the version was opened meanwhile.
    """
    if (quote or bundle) and not submission.contact_email:
        return False
    mail = Mail(submission=submission, kind=kind, key=key, quote=quote, bundle=bundle)
    mail.unless_opened = later is not None
    if not insert(mail, unless_there=True):
        return False
    payload = {"mail_id": mail.pk, "go": 1}
    enqueue(kind="send_mail", payload=payload, key=f"send_mail:{mail.pk}:1", due=later)
    return True


def ask_for_offer(quote: Quote, *, asked_on_page: bool) -> None:
    """Each version goes out by mail, once. One that the customer asked for on their own page is
    seen there: it is mailed later, and only if nobody has opened it until then."""
    ask_for_mail(
        submission=quote.submission,
        kind="offer",
        key=offer_key(quote),
        quote=quote,
        later=timezone.now() + _QUIET_FOR if asked_on_page else None,
    )


def prepare_sending(*, mail_id: int, go: int) -> Callable[[], object] | None:
    """Send a mail, if nobody has begun to; a server that refuses is asked again later.

    The conditional update is the lock: of two workers one sends. Should the worker die between
    that and the server's answer, or the server fall silent with the mail in its hands, the mail
    may have left, so it is not sent again by itself: the desk is told, and may.
    """
    mail = selectors.mail_to_send(mail_id)
    if mail is None:
        return None
    if why := letters.not_wanted(mail):
        return _drop(mail_id, why)
    letter = letters.write(mail)  # before the lock: what cannot be written was not sent
    free = Mail.objects.filter(pk=mail_id, sending_at=None)
    if not free.update(sending_at=timezone.now()):
        return None
    try:
        post.hand_over(letter)
    except post.MayHaveLeft as silent:
        log.warning("Mail %s may have left: %s", mail_id, silent)
        return _drop(mail_id, post.MAY_HAVE_LEFT)
    except OSError as error:  # smtplib's errors are OSErrors too
        Mail.objects.filter(pk=mail_id).update(sending_at=None)
        if post.is_refused_for_good(error):
            return _drop(mail_id, "the address was refused")
        return _later(mail_id, go, error)
    return lambda: Mail.objects.filter(pk=mail_id).update(sent_at=timezone.now())


def send_again(*, mail: Mail) -> bool:
    """The desk has asked the customer: the mail did not come, so it is sent once more.

    A new mail in the old one's place; asked twice it is one.
    """
    with transaction.atomic():
        return ask_for_mail(
            submission=mail.submission,
            kind=mail.kind,
            key=selectors.again_key(mail),
            quote=mail.quote,
            bundle=mail.bundle,
        )


def _drop(mail_id: int, why: str) -> Callable[[], object]:
    return lambda: Mail.objects.filter(pk=mail_id, sent_at=None).update(dropped=why)


def _later(mail_id: int, go: int, error: OSError) -> Callable[[], object]:
    """Ask the mail server again: a job of its own, so that days of silence lose nothing."""
    if go >= TRIES:
        raise error
    log.warning("Mail %s did not leave (%s), try %s", mail_id, error, go)
    due = timezone.now() + min(FIRST_PAUSE * go, LONGEST_PAUSE)
    payload: Mapping[str, Any] = {"mail_id": mail_id, "go": go + 1}
    return lambda: enqueue(
        kind="send_mail", payload=payload, key=f"send_mail:{mail_id}:{go + 1}", due=due
    )


# --- Reminders ------------------------------------------------------------------------


def remind() -> int:
    """Ask for every reminder that is due, each once however many ask; say how many were new."""
    questions, quotes = selectors.to_remind_of_questions(), selectors.to_remind_of_quotes()
    due = [(pk, "question", f"question:{pk}:{number}") for pk, number in questions]
    due += [(pk, "quote", f"quote:{quote}") for pk, quote in quotes]
    new = 0
    for pk, kind, key in due:
        with transaction.atomic():
            new += ask_for_mail(submission=Submission(pk=pk), kind=kind, key=key)
    return new


@transaction.atomic
def switch_reminders_off(*, submission_id: int) -> None:
    """No more reminders of this submission; asking twice changes nothing."""
    NoReminders.objects.get_or_create(submission_id=submission_id)
