"""No work is lost and none is done twice: real Redis, real workers, real ``kill -9``."""

from __future__ import annotations

import os
import signal
import time
from collections.abc import Callable

import pytest
from redis import Redis

from intake import tasks
from intake.models import Job
from tests.servers import Server
from tests.services.conftest import Broker, Diary

pytestmark = [pytest.mark.worker, pytest.mark.django_db(transaction=True)]
StartWorker = Callable[..., Server]


def test_a_nudge_is_enough(start_worker: StartWorker, diary: Diary) -> None:
    start_worker()
    diary.ask()
    diary.wait_for_effect(seconds=5)


def test_the_whole_worker_is_killed_in_mid_job(start_worker: StartWorker, diary: Diary) -> None:
    worker = start_worker()
    diary.ask(seconds=2)
    diary.wait_for_start()
    worker.kill()
    start_worker(beat=True)
    diary.wait_for_effect()
    assert len(diary.starts()) == 2


def test_the_process_that_does_the_job_is_killed(start_worker: StartWorker, diary: Diary) -> None:
    start_worker(beat=True)
    diary.ask(seconds=2)
    os.kill(diary.wait_for_start(), signal.SIGKILL)
    diary.wait_for_effect()
    assert len(diary.starts()) == 2


def test_the_broker_is_away_when_the_form_is_sent(
    broker: Broker, start_worker: StartWorker, diary: Diary
) -> None:
    broker.stop()
    before = time.monotonic()
    diary.ask()
    assert time.monotonic() - before < 0.5, "a nudge must not hold up a request"
    assert Job.objects.get().done_at is None
    broker.start()
    start_worker(beat=True)
    diary.wait_for_effect()


def test_the_broker_forgets_everything(
    broker: Broker, start_worker: StartWorker, diary: Diary
) -> None:
    diary.ask()
    with Redis.from_url(broker.url) as redis:
        assert redis.llen("celery") == 1
        redis.flushall()
    start_worker(beat=True)
    diary.wait_for_effect()


def test_a_job_sent_eleven_times_starts_once(start_worker: StartWorker, diary: Diary) -> None:
    job = diary.ask(seconds=0.5)
    for _ in range(10):
        tasks.run_job.apply_async(args=(job.pk,), retry=False)
    start_worker()
    diary.wait_for_effect()
    time.sleep(0.5)
    assert len(diary.starts()) == 1


def test_a_stopping_worker_finishes_its_job(start_worker: StartWorker, diary: Diary) -> None:
    worker = start_worker()
    diary.ask(seconds=1.5)
    diary.wait_for_start()
    assert worker.stop() == 0
    diary.wait_for_effect(seconds=1)
    assert len(diary.starts()) == 1
