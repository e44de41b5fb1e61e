"""Children that judge: the same answers as here, gone with their parent, replaced when lost."""

from __future__ import annotations

import json
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from intake.season.customers import a_customer
from intake.season.sheets import a_body
from quotes.domain.replay import Judged
from quotes.replay.crew import Crew
from quotes.replay.judging import Given, Judge, Rules, Task
from tests.given import demo_stock

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
    home = Path(__file__).resolve().parents[3]
    code = (
        "import sys, quotes.replay.child as child; child.main();"
        "sys.stderr.write(str('django' in sys.modules))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code],
        stdin=subprocess.DEVNULL,
        capture_output=True,
        cwd=home,
        timeout=30,
        check=True,
    )
    assert done.stderr.strip() == b"False"
