"""Judging on all cores: a few children of this process, each fed batch by batch.

Children are programs of their own rather than forks: a worker that is itself somebody's daemon may
have them, no thread or database connection is copied, and they end with their pipe. Where a child
cannot be had, or is lost, its batch is judged here.
"""

from __future__ import annotations

import logging
import shutil
import subprocess
import sys
from collections import deque
from collections.abc import Iterable, Iterator, Sequence
from concurrent.futures import Future, ThreadPoolExecutor
from contextlib import suppress
from pathlib import Path
from queue import SimpleQueue

from quotes.replay.judging import Answer, Given, Judge, Task
from quotes.replay.pipes import receive, send

log = logging.getLogger(__name__)

Batch = Sequence[Given]
_AHEAD = 2  # batches under way for each child: memory stays bounded, and no child waits
_HOME = Path(__file__).resolve().parents[2]


class Child:
    """One process that judges. Used by one thread at a time."""

    def __init__(self) -> None:
        polite = [found, "-n", "5"] if (found := shutil.which("nice")) else []
        self.process = subprocess.Popen(  # noqa: S603  our own module
            [*polite, sys.executable, "-m", "quotes.replay.child"],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            bufsize=0,
            cwd=_HOME,
        )
        self.task: Task | None = None

    def judge(self, task: Task, batch: Batch) -> list[Answer]:
        """One batch. OSError or EOFError where the child is gone."""
        reads, writes = self.process.stdout, self.process.stdin
        if reads is None or writes is None:
            raise EOFError
        if self.task is None or not self.task.is_same(task):
            send(writes, ("task", task))
            self.task = task
        send(writes, ("batch", batch))
        answers: list[Answer] = receive(reads)
        return answers

    def end(self) -> None:
        """Close its pipes and wait: it has nothing to lose."""
        for pipe in (self.process.stdin, self.process.stdout):
            if pipe is not None:
                with suppress(OSError):
                    pipe.close()
        self.process.kill()
        self.process.wait()


class Crew:
    """So many children, kept from step to step; with none, all is judged in this process."""

    def __init__(self, size: int) -> None:
        self.size = size
        self._idle: SimpleQueue[Child | None] = SimpleQueue()
        for _ in range(size):
            self._idle.put(None)  # a place; its child is started when it is needed

    def judge(self, task: Task, batches: Iterable[Batch]) -> Iterator[tuple[Batch, list[Answer]]]:
        """Every batch with its answers, in order; no more are asked for than can be under way."""
        if not self.size:
            judge = Judge(task)
            yield from ((batch, judge.many(batch)) for batch in batches)
            return
        under_way: deque[tuple[Batch, Future[list[Answer]]]] = deque()
        with ThreadPoolExecutor(self.size, thread_name_prefix="replay") as threads:
            for batch in batches:
                under_way.append((batch, threads.submit(self._by_a_child, task, batch)))
                if len(under_way) >= self.size * _AHEAD:
                    first, answers = under_way.popleft()
                    yield first, answers.result()
            while under_way:
                first, answers = under_way.popleft()
                yield first, answers.result()

    def _by_a_child(self, task: Task, batch: Batch) -> list[Answer]:
        child = self._idle.get()
        try:
            child = _alive(child)
            return child.judge(task, batch)
        except (OSError, EOFError) as error:
            log.warning("A process that judges was lost (%s); this batch is judged here", error)
            if child is not None:
                child.end()
            child = None
            return Judge(task).many(batch)
        finally:
            self._idle.put(child)

    def end(self) -> None:
        """End all children. The crew may be used again; they are started anew then."""
        for _ in range(self.size):
            child = self._idle.get()
            if child is not None:
                child.end()
            self._idle.put(None)


def _alive(child: Child | None) -> Child:
    """The child, or a new one where it has gone home for want of work."""
    if child is not None and child.process.poll() is None:
        return child
    if child is not None:
        child.end()
    return Child()
