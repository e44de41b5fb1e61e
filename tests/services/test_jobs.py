"""The outbox without servers: once, whole or not at all, and patient with failure."""

from __future__ import annotations

import threading
import time
from collections.abc import Callable, Iterator, Mapping
from datetime import timedelta
from typing import Any

import pytest
from django.contrib.auth.models import Group
from django.db import connection, transaction
from django.utils import timezone

from intake import jobs
from intake.models import Job

pytestmark = pytest.mark.django_db(transaction=True)


@pytest.fixture(autouse=True)
def kinds() -> Iterator[None]:
    """Kinds of this file only; an effect is one more Group row."""
    before = dict(jobs._handlers)
    yield
    jobs._handlers.clear()
    jobs._handlers.update(before)


def effect(name: str) -> Callable[[], object]:
    return lambda: Group.objects.create(name=name)


def ask(kind: str = "leave-mark", key: str = "one", **more: Any) -> Job:
    with transaction.atomic():
        jobs.enqueue(kind=kind, payload={"name": key}, key=key, **more)
    return Job.objects.get(key=key)


def marks() -> list[str]:
    return sorted(Group.objects.values_list("name", flat=True))


def leave_mark() -> None:
    jobs.handler("leave-mark")(lambda payload: effect(payload["name"]))


def make_due(job: Job) -> None:
    Job.objects.filter(pk=job.pk).update(due=timezone.now() - timedelta(seconds=1))


def test_asked_twice_is_done_once() -> None:
    leave_mark()
    ask()
    ask()
    assert (jobs.drain(), jobs.drain(), marks()) == (1, 0, ["one"])
    ask()
    assert (jobs.drain(), marks()) == (0, ["one"])


def test_a_job_belongs_to_its_change() -> None:
    leave_mark()
    with transaction.atomic():
        jobs.enqueue(kind="leave-mark", payload={"name": "x"}, key="x")
        transaction.set_rollback(True)
    assert not Job.objects.exists()
    with pytest.raises(transaction.TransactionManagementError):
        jobs.enqueue(kind="leave-mark", payload={"name": "x"}, key="x")


def test_the_nudge_waits_for_the_commit() -> None:
    jobs._bell.clear()
    with transaction.atomic():
        jobs.enqueue(kind="leave-mark", payload={"name": "x"}, key="x")
        assert not jobs._bell.is_set()
    assert jobs._bell.is_set()


def test_later_means_later() -> None:
    leave_mark()
    job = ask(due=timezone.now() + timedelta(days=7))
    assert (jobs.drain(), jobs.run_job(job.pk)) == (0, False)
    make_due(job)
    assert (jobs.drain(), marks()) == (1, ["one"])


def test_a_lost_lease_rolls_everything_back() -> None:
    """We stall past our lease, another worker takes over and finishes, we wake up."""

    def stall(payload: Mapping[str, Any]) -> Callable[[], object]:
        if not Group.objects.exists() and Job.objects.get().attempts == 1:
            Job.objects.update(lease_until=timezone.now() - timedelta(seconds=1))
            assert jobs.run_job(Job.objects.get().pk)  # the other worker
        return effect("effect")

    jobs.handler("stall")(stall)
    job = ask("stall")
    assert jobs.run_job(job.pk)
    assert marks() == ["effect"]
    job.refresh_from_db()
    assert (job.attempts, job.done_at is not None, job.error) == (2, True, "")


def test_the_slow_part_runs_outside_any_transaction() -> None:
    seen = []

    def look(payload: Mapping[str, Any]) -> Callable[[], object]:
        seen.append(connection.in_atomic_block)
        return lambda: seen.append(connection.in_atomic_block)

    jobs.handler("look")(look)
    ask("look")
    jobs.drain()
    assert seen == [False, True]


def test_a_failing_closure_leaves_nothing_behind() -> None:
    def half(payload: Mapping[str, Any]) -> Callable[[], object]:
        def finish() -> None:
            Group.objects.create(name="half")
            raise ValueError("the printer is out of paper")

        return finish

    jobs.handler("half")(half)
    job = ask("half")
    jobs.drain()
    job.refresh_from_db()
    assert marks() == []
    assert (job.done_at, job.dead, job.lease_until) == (None, False, None)
    assert "out of paper" in job.error
    assert job.due > timezone.now() + timedelta(seconds=3)


def test_each_failure_waits_longer_and_the_last_one_is_kept() -> None:
    def fail(payload: Mapping[str, Any]) -> None:
        raise ValueError("still broken")

    jobs.handler("fail")(fail)
    job, waits = ask("fail"), []
    for _ in range(jobs.ATTEMPTS):
        make_due(job)
        assert jobs.drain() == 1
        job.refresh_from_db()
        waits.append(round((job.due - timezone.now()).total_seconds()))
    assert waits == [5, 10, 20, 40, 80, 160, 320, 640]
    assert job.dead
    assert "still broken" in job.error
    make_due(job)
    assert jobs.drain() == 0


def test_a_job_that_kills_its_worker_every_time_is_buried() -> None:
    leave_mark()
    job = ask()
    Job.objects.update(
        attempts=jobs.ATTEMPTS, lease_until=timezone.now() - timedelta(seconds=1), lease_token="x"
    )
    assert jobs.drain() == 0
    job.refresh_from_db()
    assert job.dead
    assert "died" in job.error


def test_an_unknown_kind_fails_and_says_so() -> None:
    job = ask("no-such-kind")
    jobs.drain()
    job.refresh_from_db()
    assert "no-such-kind" in job.error


def test_many_workers_do_each_job_once() -> None:
    """Eight threads after the same twenty jobs; the database decides who came first."""
    leave_mark()
    for number in range(20):
        ask(key=f"job-{number:02}")
    wrong: list[Exception] = []
    crowd = [threading.Thread(target=_drain, args=(wrong,)) for _ in range(8)]
    for worker in crowd:
        worker.start()
    for worker in crowd:
        worker.join()
    assert wrong == []
    assert marks() == [f"job-{number:02}" for number in range(20)]
    assert set(Job.objects.values_list("attempts", flat=True)) == {1}


def _drain(wrong: list[Exception]) -> None:
    try:
        jobs.drain()
    except Exception as error:
        wrong.append(error)
    finally:
        connection.close()


def test_the_embedded_thread_does_it_at_once() -> None:
    leave_mark()
    before = time.monotonic()
    stop = threading.Event()
    thread = jobs.start_thread(stop)
    assert thread is not None
    ask()
    while not marks() and time.monotonic() < before + 10:
        time.sleep(0.01)
    stop.set()
    jobs._bell.set()
    thread.join(10)
    assert marks() == ["one"]
    assert not thread.is_alive()


def test_with_a_broker_no_thread_starts(settings: Any) -> None:
    settings.REDIS_URL = "redis://127.0.0.1:1/0"
    assert jobs.start_thread() is None
