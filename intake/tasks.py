"""Celery's doorbells. Each may ring twice."""

from __future__ import annotations

from celery import shared_task

from intake import jobs
from intake.finding.services import index_waiting


@shared_task(name="intake.run_job")
def run_job(pk: int) -> None:
    """Somebody wrote a job: do it, unless another worker already has."""
    jobs.run_job(pk)


@shared_task(name="intake.drain")
def drain() -> None:
    """The sweep: whatever is due, whoever lost its nudge, and the chores."""
    jobs.sweep()


@shared_task(name="intake.index")
def index() -> None:
    """What is new or has changed can be found a moment later."""
    index_waiting()
