"""Children that judge: the same answers as here, gone with their parent, replaced when lost."""

from __future__ import annotations

import json
import multiprocessing
import os
import signal
import subprocess
import sys
import threading
from collections.abc import Iterator
from multiprocessing.connection import Connection
from pathlib import Path

import pytest

from intake.season.customers import a_customer
from intake.season.sheets import a_body
from quotes.domain.replay import Judged
from quotes.replay.crew import Crew
from quotes.replay.judging import Given, Judge, Rules, Task
from tests.given import demo_stock

HOME = Path(__file__).resolve().parents[3]
USUAL = Rules("2026.1", {}, {})
TASK = Task(demo_stock(), USUAL, Rules("replay", {"fit_ask": "0.999"}, {}))


def given(index: int) -> Given:
    text = json.dumps(a_body(a_customer(11, index)))
    return Given(text, "", "", "2026-04-01", False, Judged("release", ()), True)


@pytest.fixture
def crew() -> Iterator[Crew]:
    found = Crew(2)
    yield found
    found.end()


def test_children_answer_as_this_process_does_and_in_order(crew: Crew) -> None:
    batches = [[given(index) for index in range(at, at + 5)] for at in range(0, 30, 5)]
    here = [Judge(TASK).many(batch) for batch in batches]
    assert any(answer for answers in here for answer in answers)
    assert [answers for _batch, answers in crew.judge(TASK, batches)] == here
    assert [answers for _batch, answers in Crew(0).judge(TASK, batches)] == here


def test_a_lost_child_costs_no_sheet(crew: Crew) -> None:
    batches = [[given(index)] for index in range(6)]
    here = [Judge(TASK).many(batch) for batch in batches]
    found = []
    for place, (_batch, answers) in enumerate(crew.judge(TASK, batches)):
        found.append(answers)
        if place == 0:
            child = crew._idle.get()
            if child is not None:
                child.process.kill()
            crew._idle.put(child)
    assert found == here


def test_where_no_process_can_be_had_all_is_judged_here(
    crew: Crew, monkeypatch: pytest.MonkeyPatch
) -> None:
    def refused(*_args: object, **_kwargs: object) -> None:
        raise OSError("no more processes")

    monkeypatch.setattr(subprocess, "Popen", refused)
    batches = [[given(0)], [given(1)]]
    assert len(list(crew.judge(TASK, batches))) == 2


def test_a_child_knows_no_django_and_ends_with_its_pipe() -> None:
    code = (
        "import sys, quotes.replay.child as child; child.main();"
        "sys.stderr.write(str('django' in sys.modules))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code],
        stdin=subprocess.DEVNULL,
        capture_output=True,
        cwd=HOME,
        timeout=30,
        check=True,
    )
    assert done.stderr.strip() == b"False"


def _judge_as_a_daemon(pipe: Connection) -> None:
    crew = Crew(1)
    pipe.send([answers for _batch, answers in crew.judge(TASK, [[given(0)], [given(1)]])])
    crew.end()


def test_a_worker_that_is_a_daemon_may_have_children() -> None:
    """A forked worker of a queue is one, and may not fork."""
    here, there = multiprocessing.Pipe()
    start = multiprocessing.get_context("spawn").Process
    worker = start(target=_judge_as_a_daemon, args=(there,), daemon=True)
    worker.start()
    assert here.poll(30)
    assert here.recv() == [Judge(TASK).many([given(index)]) for index in (0, 1)]
    worker.join()


_PARENT = """
import sys
from quotes.replay.crew import Child
child = Child()
print(child.process.pid, flush=True)
sys.stdin.read()
"""


def test_children_die_with_a_parent_that_is_killed() -> None:
    with subprocess.Popen(
        [sys.executable, "-c", _PARENT], stdin=subprocess.PIPE, stdout=subprocess.PIPE, cwd=HOME
    ) as parent:
        assert parent.stdout is not None
        child = int(parent.stdout.readline())
        assert _lives(child)
        os.kill(parent.pid, signal.SIGKILL)
        parent.wait()
    waited = threading.Event()
    assert any(not _lives(child) or waited.wait(0.05) for _ in range(200))
    assert not _lives(child)


def _lives(process: int) -> bool:
    """Whether it runs: what has ended and is not buried yet is dead too."""
    status = Path(f"/proc/{process}/stat")
    try:
        return status.read_text().rpartition(")")[2].split()[0] != "Z"
    except (FileNotFoundError, ProcessLookupError):
        return False
