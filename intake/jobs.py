"""Work for later: a row written with the change it belongs to, done once, lost never.

``enqueue`` writes the row inside the caller's transaction. After the commit a nudge says
"there is work"; a nudge may get lost, because a sweep finds every row that is due. A
worker takes a job by a lease: one conditional UPDATE, the same on both databases. It does
the slow part outside any transaction and hands back a closure; the closure and the mark
"done" are one short transaction, and only while the lease is still its own. So a worker
may die, stall or be overtaken at any line, and the effect still happens once.
"""

from __future__ import annotations

import logging
import secrets
import threading
import time
import traceback
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from django.conf import settings
from django.db import close_old_connections, connection, transaction
from django.db.models import F, Q, QuerySet
from django.utils import timezone

from intake.inserts import insert
from intake.models import Job

log = logging.getLogger(__name__)

Finish = Callable[[], object]
Handler = Callable[[Mapping[str, Any]], Finish | None]

ATTEMPTS = 8  # then the job is dead and waits for a person, with its error
FIRST_WAIT = timedelta(seconds=5)  # doubled after every failure, up to:
LONGEST_WAIT = timedelta(minutes=15)
POLL_SECONDS = 2.0  # the embedded thread also looks without being nudged

_handlers: dict[str, Handler] = {}
_chores: dict[Callable[[], object], float] = {}  # what the sweep looks after, and when it last did
_every: dict[Callable[[], object], float] = {}  # and how often, in seconds
CHORE_SECONDS = 600.0
_bell = threading.Event()


class LeaseLost(Exception):
    """Another worker holds this job now; what we were about to do is rolled back."""


@dataclass(frozen=True, slots=True)
class _Lease:
    pk: int
    token: str
    kind: str
    payload: Mapping[str, Any]
    attempts: int


# --- Asking for work ------------------------------------------------------------------


def handler(kind: str) -> Callable[[Handler], Handler]:
    """Register what does jobs of this kind: slow work first, then a closure that writes."""

    def register(work: Handler) -> Handler:
        _handlers[kind] = work
        return work

    return register


def enqueue(
    *, kind: str, payload: Mapping[str, Any], key: str, due: datetime | None = None
) -> None:
    """Write one job inside the caller's transaction; asking again for a key changes nothing.

    Raises ``TransactionManagementError`` outside a transaction: a job without the change
    it belongs to would be work about nothing.
    """
    if not connection.in_atomic_block:
        raise transaction.TransactionManagementError("enqueue needs the caller's transaction")
    row = Job(kind=kind, payload=dict(payload), key=key, due=due or timezone.now())
    insert(row, unless_there=True)
    transaction.on_commit(lambda: _nudge(key), robust=True)


def _nudge(key: str) -> None:
    """Ring the bell, never wait for it: without a broker the sweep does the same, later."""
    if not settings.REDIS_URL:
        _bell.set()
        return
    from intake import tasks

    pk = _due().filter(key=key).values_list("pk", flat=True).first()
    if pk is None:
        return
    try:
        tasks.run_job.apply_async(args=(pk,), retry=False)
    except Exception as error:  # whatever the broker's client raises; the row is safe
        log.warning("No nudge for job %s (%s): the sweep will find it", key, error)


def chore(work: Callable[[], object], *, seconds: float = CHORE_SECONDS) -> Callable[[], object]:
    """Register what the sweep looks after so often, in every process that sweeps.

    It may run in several at once: it asks for work, by ``enqueue`` and its keys, or does what may
    as well be done twice.
    """
    _chores[work], _every[work] = -seconds, seconds
    return work


# --- Doing it -------------------------------------------------------------------------


def sweep() -> int:
    """The chores whose turn it is, then whatever is due; say how many jobs ran."""
    now = time.monotonic()
    for work, last in list(_chores.items()):
        if now - last >= _every.get(work, CHORE_SECONDS):
            _chores[work] = now
            try:
                work()
            except Exception:  # one chore that stumbles keeps nobody else's work waiting
                log.exception("A chore of the sweep stumbled")
    return drain()


def drain(*, seconds: float = 30.0) -> int:
    """Do what is due, oldest first, for at most about so many seconds; say how many ran."""
    _bury()
    stop, ran = time.monotonic() + seconds, 0
    for pk in list(_due().values_list("pk", flat=True)[:500]):
        ran += run_job(pk)
        if time.monotonic() > stop:
            break
    return ran


def run_job(pk: int) -> bool:
    """Do one job if it is due and nobody else holds it; False when there was nothing to do."""
    lease = _claim(pk)
    if lease is None:
        return False
    try:
        _settle(lease, _handlers[lease.kind](lease.payload))
    except LeaseLost:
        log.warning("Lease lost on job %s (%s): rolled back", lease.pk, lease.kind)
    except Exception as error:
        log.exception("Job %s (%s) failed, attempt %s", lease.pk, lease.kind, lease.attempts)
        _put_back(lease, error)
    return True


def _free(now: datetime) -> Q:
    return Q(lease_until__isnull=True) | Q(lease_until__lt=now)


def _due() -> QuerySet[Job]:
    now = timezone.now()
    return Job.objects.filter(_free(now), due__lte=now, done_at__isnull=True, dead=False)


def _claim(pk: int) -> _Lease | None:
    """Take the lease by one conditional UPDATE; the database decides who came first."""
    token = secrets.token_urlsafe(16)
    until = timezone.now() + timedelta(seconds=settings.JOB_LEASE_SECONDS)
    mine = _due().filter(pk=pk, attempts__lt=ATTEMPTS)
    if not mine.update(lease_until=until, lease_token=token, attempts=F("attempts") + 1):
        return None
    job = Job.objects.get(pk=pk)
    return _Lease(pk, token, job.kind, job.payload, job.attempts)


def _settle(lease: _Lease, finish: Finish | None) -> None:
    """The effect and "done" together or not at all, and only if the lease is still ours."""
    with transaction.atomic():
        if not _held(lease).update(done_at=timezone.now(), lease_until=None, error=""):
            raise LeaseLost
        if finish is not None:
            finish()


def _put_back(lease: _Lease, error: Exception) -> None:
    """Try again later and later; after ATTEMPTS it is dead and keeps its error."""
    wait = min(FIRST_WAIT * 2 ** (lease.attempts - 1), LONGEST_WAIT)
    _held(lease).update(
        due=timezone.now() + wait,
        lease_until=None,
        dead=lease.attempts >= ATTEMPTS,
        error="".join(traceback.format_exception(error))[-4000:],
    )


def _held(lease: _Lease) -> QuerySet[Job]:
    return Job.objects.filter(pk=lease.pk, lease_token=lease.token, done_at__isnull=True)


def _bury() -> None:
    """A job that took its worker down with it every time is dead too."""
    spent = _due().filter(attempts__gte=ATTEMPTS)
    spent.update(dead=True, error="The worker died in this job every time it was tried.")


# --- The embedded worker --------------------------------------------------------------


def start_thread(stop: threading.Event | None = None) -> threading.Thread | None:
    """Without a broker, do the jobs in a thread of the serving process, until ``stop``."""
    if settings.REDIS_URL:
        return None
    stop = stop or threading.Event()
    thread = threading.Thread(target=_serve, args=(stop,), name="jobs", daemon=True)
    thread.start()
    log.info("Work for later is done in a thread here")
    return thread


def _serve(stop: threading.Event) -> None:
    while not stop.is_set():
        _bell.wait(POLL_SECONDS)
        _bell.clear()
        try:
            sweep()
        except Exception:  # the thread must outlive a database that is away for a while
            log.exception("The job thread stumbled; it goes on")
        finally:
            close_old_connections()
    connection.close()
