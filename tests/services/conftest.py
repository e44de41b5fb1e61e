"""Real processes beside the tests: a broker, workers, and jobs that can be watched."""

from __future__ import annotations

import os
import sys
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest
from celery import Celery
from django.contrib.auth.models import Group
from django.db import connection, transaction

from intake import jobs
from intake.models import Job
from tests.servers import Server, free_port, start_redis, wait_for

ROOT = Path(__file__).resolve().parents[2]


def test_database_url() -> str:
    """Where this test's own database is, for another process."""
    at = connection.settings_dict
    if connection.vendor == "sqlite":
        return f"sqlite:///{at['NAME']}"
    return f"postgres://{at['USER']}@{at['HOST']}:{at['PORT']}/{at['NAME']}"


test_database_url.__test__ = False  # type: ignore[attr-defined]


def clean_environment(**more: str) -> dict[str, str]:
    """The environment of a process that shares nothing with the tests but what is named."""
    keep = {name: os.environ[name] for name in ("PATH", "HOME", "LANG") if name in os.environ}
    return keep | {"PYTHONPATH": str(ROOT), "SECRET_KEY": "for-tests-only"} | more


@dataclass
class Diary:
    """Slow jobs and what became of them."""

    path: Path

    def ask(self, name: str = "mark", *, seconds: float = 0) -> Job:
        payload = {"diary": str(self.path), "seconds": seconds, "name": name}
        with transaction.atomic():
            jobs.enqueue(kind="slow-mark", payload=payload, key=name)
        return Job.objects.get(key=name)

    def starts(self) -> list[int]:
        """The process id of every start so far."""
        return [int(line) for line in self.path.read_text().split()] if self.path.exists() else []

    def wait_for_start(self, number: int = 1) -> int:
        wait_for(lambda: len(self.starts()) >= number, what=f"start {number}")
        return self.starts()[-1]

    def wait_for_effect(self, name: str = "mark", *, seconds: float = 20) -> None:
        done = Job.objects.filter(key=name, done_at__isnull=False)
        wait_for(done.exists, what=f"job {name} to be done", seconds=seconds)
        assert Group.objects.filter(name=name).count() == 1


@pytest.fixture
def diary(tmp_path: Path) -> Diary:
    return Diary(tmp_path / "diary")


@dataclass
class Broker:
    """A private Redis that can be stopped and started again on the same port."""

    folder: Path
    port: int = field(default_factory=free_port)
    server: Server | None = None

    @property
    def url(self) -> str:
        return f"redis://127.0.0.1:{self.port}/0"

    def start(self) -> None:
        self.server, _ = start_redis(self.folder, port=self.port)

    def stop(self) -> None:
        if self.server:
            self.server.kill()
            self.server = None


@pytest.fixture
def broker(tmp_path: Path, settings: Any) -> Iterator[Broker]:
    """Celery on a real Redis, for this test only."""
    broker = Broker(tmp_path)
    broker.start()
    settings.REDIS_URL = broker.url
    app = Celery("of-this-test")
    app.config_from_object("django.conf:settings", namespace="CELERY")
    app.conf.update(broker_url=broker.url)
    app.set_current()
    yield broker
    app.close()
    broker.stop()


@pytest.fixture
def start_worker(
    broker: Broker, tmp_path: Path, db_is_shared: None
) -> Iterator[Callable[..., Server]]:
    """``start_worker(beat=True)``: a real Celery worker on this test's database."""
    started: list[Server] = []

    def start(*, beat: bool = False) -> Server:
        command = [
            sys.executable, "-m", "celery", "-A", "config", "worker", "--loglevel=INFO",
            "--concurrency=2", "--include=tests.services.kinds", f"--hostname=w{len(started)}@test",
        ]  # fmt: skip
        if beat:
            command += ["--beat", f"--schedule={tmp_path}/beat-{len(started)}"]
        server = Server(
            command,
            log=tmp_path / f"worker-{len(started)}.log",
            cwd=ROOT,
            env=clean_environment(
                DATABASE_URL=test_database_url(),
                REDIS_URL=broker.url,
                JOB_LEASE_SECONDS="3",
                JOB_SWEEP_SECONDS="1",
            ),
        )
        started.append(server)
        wait_for(lambda: " ready." in server.said(), what=str(server))
        return server

    yield start
    for server in started:
        server.kill()


@pytest.fixture
def db_is_shared(transactional_db: None) -> Any:
    """Rows are committed, so that other processes see them."""
