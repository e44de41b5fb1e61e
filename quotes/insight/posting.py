"""A mail of the manager's that leaves once: the row it is about is its lock."""

from __future__ import annotations

import logging
from collections.abc import Callable
from datetime import timedelta

from django.conf import settings
from django.core.mail import EmailMultiAlternatives
from django.db.models import QuerySet
from django.utils import timezone

from intake.jobs import enqueue
from quotes.links.post import MAY_HAVE_LEFT, MayHaveLeft, hand_over

log = logging.getLogger(__name__)

FIRST_PAUSE, LONGEST_PAUSE = timedelta(minutes=5), timedelta(hours=1)
TRIES = 48  # two days of a mail server that does not answer
Finish = Callable[[], object]


def ask(kind: str, pk: int, go: int = 1) -> None:
    """Ask for a mail about a row, inside the caller's transaction; ``go`` counts the tries."""
    wait = min(FIRST_PAUSE * (go - 1), LONGEST_PAUSE)
    enqueue(
        kind=kind,
        payload={"pk": pk, "go": go},
        key=f"{kind}:{pk}:{go}",
        due=timezone.now() + wait,
    )


def send_once(
    mine: QuerySet, letter: EmailMultiAlternatives, *, kind: str, pk: int, go: int
) -> Finish | None:  # type: ignore[type-arg]
    """Send the mail of one row, outside any transaction; what it hands back writes that it left.

    ``mine`` is the row alone. The conditional update is the lock: of two workers one sends. Should
    the worker die between that and the server's answer, the mail may have left and is not sent
    again. Raises OSError when the server was asked for two days.
    """
    if not mine.filter(sending_at=None, sent_at=None, dropped="").update(sending_at=timezone.now()):
        return None
    try:
        hand_over(letter)
    except MayHaveLeft:
        return lambda: mine.update(dropped=MAY_HAVE_LEFT)
    except OSError as error:  # smtplib's errors are OSErrors too
        mine.update(sending_at=None)
        if go >= TRIES:
            raise
        log.warning("The mail %s of %s did not leave (%s), try %s", kind, pk, error, go)
        return lambda: ask(kind, pk, go + 1)
    return lambda: mine.update(sent_at=timezone.now())


def message_id(name: str) -> dict[str, str]:
    """A copy of a mail shows as the same one."""
    host = settings.SITE_URL.rpartition("/")[2].partition(":")[0] or "localhost"
    return {"Message-ID": f"<{name}@{host}>".lower()}


def address(path: str) -> str:
    """A page's whole address."""
    return str(settings.SITE_URL).rstrip("/") + path
