"""The work of a replay: step by step, each a job of its own, so that a killed one is taken up."""

from __future__ import annotations

import time
from collections import deque
from collections.abc import Callable, Iterator, Mapping
from functools import cache, partial
from typing import Any

from django.conf import settings

from intake.jobs import Finish, chore, handler
from quotes.domain.replay import Compared, Judged, Tally
from quotes.replay import selectors, services
from quotes.replay.crew import Crew
from quotes.replay.judging import Answer, Given, Replayed
from quotes.replay.models import RUNNING, WAITING, Replay, ReplaySheet
from quotes.replay.selectors import Read

STEP_SHEETS = 10_000  # a step is a few seconds, never so long that its lease is in danger,
STEP_SECONDS = 8.0  # or that another job waits long for its turn
STEP_ROWS = 2000  # and its rows are one short transaction
AT_ONCE = 50  # sheets judged at once by one process: at the end of a step none waits long


@cache
def crew() -> Crew:
    """The children of this process; started when there is something to judge."""
    return Crew(settings.REPLAY_PROCESSES)


@handler(services.KIND)
def step(payload: Mapping[str, Any]) -> Finish | None:
    """One step. One that is not the next any more (it was done, or cancelled) does nothing."""
    replay = selectors.replay_of(payload["replay"])
    if replay is None or selectors.step_key(replay) != payload["step"]:
        return None
    if replay.state == WAITING:
        return partial(services.begin, replay, selectors.extent(replay))
    return _judge_some(replay) if replay.state == RUNNING else None


def _judge_some(replay: Replay) -> Finish:
    part, rows = Tally(), list[ReplaySheet]()
    upto = replay.last  # where nothing is left, the end is reached
    under_way = deque[Read]()
    batches = _batches(replay, under_way, lambda: len(rows) > STEP_ROWS)
    for _batch, answers in crew().judge(selectors.task_of(replay), batches):
        for answer in answers:
            read = under_way.popleft()
            upto = read.submission
            if row := _taken(part, read, answer):
                row.replay = replay
                rows.append(row)
    return partial(services.take_in, replay, upto, part, rows)


def _batches(
    replay: Replay, under_way: deque[Read], is_enough: Callable[[], bool]
) -> Iterator[list[Given]]:
    """What is to be judged in this step; what was handed out is under way, in the same order."""
    stop = time.monotonic() + STEP_SECONDS
    for batch in selectors.sheets_after(replay, replay.upto, STEP_SHEETS):
        for start in range(0, len(batch), AT_ONCE):
            some = batch[start : start + AT_ONCE]
            under_way.extend(some)
            yield [read.given for read in some]
            if time.monotonic() > stop or is_enough():
                return


def _taken(part: Tally, read: Read, answer: Answer) -> ReplaySheet | None:
    """Count a sheet; its line where the change moves it."""
    part.facts_kept += bool(read.given.beside)
    if isinstance(answer, bool):
        part.unread += 1
        return None
    told = answer or _as_stored(read.given.stored)
    one = Compared(told.before, told.after, told.drifted, read.wrong, read.cost)
    part.add(one)
    return _line(read, told) if one.differs else None


def _as_stored(stored: Judged) -> Replayed:
    return Replayed(stored, stored, "", drifted=False)


def _line(read: Read, told: Replayed) -> ReplaySheet:
    return ReplaySheet(
        submission_id=read.submission,
        before=told.before.verdict,
        after=told.after.verdict,
        before_holding=told.before.holding,
        after_holding=told.after.holding,
        question=told.question,
        wrong=read.wrong,
        drifted=told.drifted,
    )


chore(services.fail_what_is_given_up, seconds=60.0)
