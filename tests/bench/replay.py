"""P8: replay of many sheets ÷ (as many × one ``evaluate`` ÷ cores).

``python -m tests.bench.replay [--sheets N]`` in a new database of the engine that ``DATABASE_URL``
names. The sheets are a season's, each another customer's. Everything counts: reading them out of
the database, reading their bodies, judging, counting, writing what moves. Beside the wall clock,
which another program's work lengthens, stand the seconds of processor time, which it does not.
"""

from __future__ import annotations

import os
import resource
import time
from argparse import ArgumentParser
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Any

from django.utils import timezone

GOAL = 1.3
SEED, SAMPLE = 20261125, 1500
CHANGES: dict[str, dict[str, str]] = {
    "limits unchanged": {},
    "one limit changed (route_ask 7/16 in)": {"route_ask": "7/16 in"},
    "a must (log_id): every sheet moves": {"needed:log_id": "yes"},
}


@dataclass(frozen=True, slots=True)
class Spent:
    """Seconds on the wall, and of processor time of this process and its ended children."""

    wall: float
    processor: float


def spent(work: Callable[[], object]) -> Spent:
    """What a piece of work takes."""
    start, before = time.perf_counter(), _processor()
    work()
    return Spent(time.perf_counter() - start, _processor() - before)


def _processor() -> float:
    whose = (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)
    return sum(sum(resource.getrusage(one)[:2]) for one in whose)


def fill(sheets: int) -> None:
    """A season's requests, each another customer's, stored as they are when received."""
    from django.db import transaction

    for first in range(0, sheets, 1000):
        with transaction.atomic():
            _store(range(first, min(first + 1000, sheets)))


def _store(numbers: range) -> None:
    """Many at once, in the rows that receiving makes; the job of each and its line are left out."""
    from catalog.selectors import stock
    from intake import rows
    from intake.domain.history import History
    from intake.domain.kept_history import kept_history
    from intake.domain.reading import read_sheet
    from intake.evaluate import evaluate
    from intake.models import FindingRecord, SheetVersion, Submission
    from intake.season.customers import a_customer
    from intake.season.sheets import a_body

    facts, shelf = History(today=timezone.localdate()), stock()
    made = []
    for number in numbers:
        body = a_body(a_customer(SEED, number))
        sheet = read_sheet(body, contact_needed=True)
        verdict = evaluate(sheet, shelf, facts)
        row = rows.new_submission(sheet, verdict, key="", digest="")
        row.reference, row.to_index = f"B{number:08}", False
        kept = kept_history(facts)
        made.append((row, rows.new_version(row, 1, sheet, verdict, body, beside=kept, by=None)))
    Submission.objects.bulk_create([row for row, _ in made])
    SheetVersion.objects.bulk_create([version for _, version in made])
    FindingRecord.objects.bulk_create(
        [one for row, version in made for one in rows.finding_rows(row, version, frozenset())]
    )


def one_evaluate() -> tuple[Spent, Spent]:
    """One call, the mean over sheets that were never judged here: with the next question, without.

    (A sheet judged twice is judged in a third of the time: what its numbers come to is kept.)
    """
    from catalog.selectors import stock
    from intake.domain.reading import read_sheet
    from intake.evaluate import evaluate
    from intake.models import SheetVersion

    kept = SheetVersion.objects.order_by("pk")[: 3 * SAMPLE]
    sheets, shelf = [read_sheet(row.body, contact_needed=True) for row in kept], stock()

    def judge(some: list[Any], **how: Any) -> Spent:
        def work() -> None:
            for sheet in some:
                evaluate(sheet, shelf, **how)

        took = spent(work)
        return Spent(took.wall / len(some), took.processor / len(some))

    judge(sheets[:SAMPLE])  # what is built once is built now
    asked = judge(sheets[SAMPLE : 2 * SAMPLE])
    return asked, judge(sheets[2 * SAMPLE :], with_next_question=False)


def replays() -> Iterator[tuple[str, Spent]]:
    """Each change, judged from the asking to the end."""
    from django.contrib.auth.models import User

    from intake.jobs import run_job
    from intake.models import Job
    from quotes.replay import selectors, services
    from quotes.replay.handlers import crew

    by, today = User.objects.create_user("bench"), timezone.localdate()

    def to_the_end(words: str, typed: dict[str, str]) -> None:
        asked = services.Asked(words[:60], today, today, typed)
        replay = services.ask_replay(asked=asked, by=by, ask_key=words[:43])
        while job := Job.objects.filter(kind="replay", done_at=None, dead=False).first():
            run_job(job.pk)
        crew().end()  # their time counts once they have ended
        found = selectors.replay_of(replay.pk)
        if found is None or found.state != "done" or found.done != found.total:
            raise RuntimeError(f"{words} did not come to its end")

    for words, typed in CHANGES.items():
        yield words, spent(lambda typed=typed, words=words: to_the_end(words, typed))


def main() -> None:
    """Fill, judge, and say what it took beside the goal."""
    parser = ArgumentParser(description=__doc__)
    parser.add_argument("--sheets", type=int, default=100_000)
    sheets = parser.parse_args().sheets
    from tests.bench.submissions import a_shop

    with a_shop():
        print(f"{sheets} sheets filled in {spent(lambda: fill(sheets)).wall:.0f} s", flush=True)
        cores = len(os.sched_getaffinity(0))
        asked, plain = one_evaluate()
        print(f"one evaluate: {asked.processor * 1e6:.0f} µs, {plain.processor * 1e6:.0f} without "
              f"the next question; {cores} cores; goal {GOAL}")  # fmt: skip
        for words, took in replays():
            wall = took.wall * cores / (sheets * asked.wall)
            busy = took.processor / (sheets * asked.processor)
            bare = took.processor / (sheets * plain.processor)
            print(f"{words}: {took.wall:.1f} s, ratio {wall:.2f}; by processor time {busy:.2f}, "
                  f"{bare:.2f} of one without the next question")  # fmt: skip


if __name__ == "__main__":
    main()
