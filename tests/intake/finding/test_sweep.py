"""A request can be found a moment after it came, and receiving it paid for nothing."""

from __future__ import annotations

import io
import threading

import pytest
from django.core.management import call_command
from django.db import connection

from intake import jobs, tasks
from intake.finding import selectors, services
from intake.finding.lists.asked import asked_for
from intake.finding.lists.selectors import page_of
from intake.finding.models import RequestLine
from intake.models import Submission
from intake.services import close
from tests.intake.desk_given import stock_the_shelf
from tests.intake.finding.given import a_request


def found(text: str) -> list[int]:
    return list(page_of(asked_for({"q": text}), 25).keys)


@pytest.mark.django_db
def test_the_sweep_writes_the_lines(monkeypatch: pytest.MonkeyPatch) -> None:
    stock_the_shelf()
    new = a_request("Kettle Drum")
    assert found("kettle") == []
    monkeypatch.setattr(jobs, "_chores", {services.index_waiting: -services.EVERY})
    jobs.sweep()
    assert found("kettle") == [new.pk]


@pytest.mark.django_db
def test_the_worker_writes_them_too() -> None:
    stock_the_shelf()
    new = a_request("Kettle Drum")
    tasks.index()
    assert found("kettle") == [new.pk]
    assert selectors.waiting_keys(5) == []


@pytest.mark.django_db
def test_a_moved_request_is_written_again() -> None:
    stock_the_shelf()
    new = a_request("Kettle Drum")
    services.index_waiting()
    close(submission=new, reason="sold the boat")
    assert selectors.waiting_keys(5) == [new.pk]
    services.index_waiting()
    assert RequestLine.objects.get(pk=new.pk).status == "withdrawn"


@pytest.mark.django_db
def test_a_command_makes_all_lines_anew() -> None:
    stock_the_shelf()
    new = a_request("Kettle Drum")
    told = io.StringIO()
    call_command("index_requests", stdout=told)
    assert "1 requests are indexed" in told.getvalue()
    assert found("kettle") == [new.pk]


@pytest.mark.django_db(transaction=True)
def test_two_that_write_lines_at_once_write_the_same(monkeypatch: pytest.MonkeyPatch) -> None:
    stock_the_shelf()
    monkeypatch.setattr(services, "AT_ONCE", 3)
    boats = [a_request(f"Kettle {n}") for n in range(12)]
    faults: list[BaseException] = []

    def write() -> None:
        try:
            services.index_waiting()
        except BaseException as fault:
            faults.append(fault)
        finally:
            connection.close()

    writers = [threading.Thread(target=write) for _ in range(3)]
    for writer in writers:
        writer.start()
    for writer in writers:
        writer.join(60)
    assert faults == []
    assert sorted(found("kettle")) == [boat.pk for boat in boats]
    assert Submission.objects.filter(to_index=True).count() == 0
