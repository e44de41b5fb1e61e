"""``make bench``: every figure beside its goal. A goal that is missed is said, never an error."""

from __future__ import annotations

import argparse
import statistics
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from tests.bench import measures
from tests.bench.timing import PAIRS, SLACK, Ratio
from tests.servers import start_postgres

ROW = "{:4} {:52} {:>10} {:>10} {:>8} {:>15} {:>8}  {}"


@dataclass(frozen=True, slots=True)
class Figure:
    """One line of the table: what, its goal, and how it is measured."""

    name: str
    what: str
    goal: float
    measure: Callable[[int], Ratio]


@dataclass(frozen=True, slots=True)
class Options:
    pairs: int
    db: str
    only: frozenset[str]


FIGURES = (
    Figure("P2", "read_length ÷ one pattern matched", 6, measures.reading),
    Figure(
        "P3",
        "evaluate, no next question ÷ 50 empty calls",
        150,
        partial(measures.judging, with_next_question=False),
    ),
    Figure(
        "P3",
        "evaluate with next question ÷ 50 empty calls",
        300,
        partial(measures.judging, with_next_question=True),
    ),
    Figure("P3", "the same, mean of the demo's sheets", 300, measures.judging_the_demo),
    Figure("P5", "quote with drawing ÷ two plain pages", 6, measures.quote_paper),
    Figure("P10", "manage.py check ÷ the same with one app", 2, measures.start_up),
)


def main() -> None:
    options = _options()
    start = time.monotonic()
    print(f"Ratios of {options.pairs} pairs taken in turns; 15 % is what they cannot tell.\n")
    print(ROW.format("", "", "floor", "ours", "ratio", "lowest–highest", "goal", ""))
    with _posts(options) as posts:
        for figure in [*posts, *FIGURES]:
            if figure.name in options.only:
                _show(figure, options.pairs)
    if "P5" in options.only:
        _show_sizes()
    print(f"\n{time.monotonic() - start:.0f} s. Time it on a quiet machine.")


def _options() -> Options:
    parser = argparse.ArgumentParser(prog="python -m tests.bench", description=__doc__)
    parser.add_argument("--pairs", type=int, default=PAIRS, help="pairs for each ratio")
    parser.add_argument("--db", choices=["sqlite", "postgres", "both"], default="both")
    parser.add_argument("--only", nargs="+", default=["P1", "P2", "P3", "P5", "P10"], metavar="P")
    given = parser.parse_args()
    return Options(given.pairs, given.db, frozenset(given.only))


@contextmanager
def _posts(options: Options) -> Iterator[list[Figure]]:
    """P1 for each engine asked for; PostgreSQL runs for as long."""
    found = []
    what = "POST submissions/ ÷ 1 + 20 rows unchecked, {}"
    if options.db != "postgres":
        found.append(Figure("P1", what.format("SQLite"), 0.9, measures.submissions))
    if options.db == "sqlite" or "P1" not in options.only:
        yield found
        return
    with tempfile.TemporaryDirectory(prefix="fairgap-bench-") as folder:
        server, url = start_postgres(Path(folder))
        measure = partial(measures.submissions, database_url=url)
        found.append(Figure("P1", what.format("PostgreSQL"), 0.5, measure))
        try:
            yield found
        finally:
            server.stop()


def _show(figure: Figure, pairs: int) -> None:
    try:
        ratio = figure.measure(pairs)
    except Exception as error:  # the other figures still tell something
        print(f"{figure.name:4} {figure.what:52} could not run: {error}")
        return
    times = _time(ratio.floor), _time(ratio.ours)
    spread = f"{_short(ratio.low)}–{_short(ratio.high)}"
    goal, said = f"≤ {figure.goal:g}", _said(ratio.value, figure.goal)
    print(ROW.format(figure.name, figure.what, *times, _short(ratio.value), spread, goal, said))
    sys.stdout.flush()


def _show_sizes() -> None:
    sizes, goal = measures.paper_sizes(), 80.0
    spread = f"{min(sizes):.0f}–{max(sizes):.0f} kB"
    median = f"{statistics.median(sizes):.0f} kB"
    said = "met" if max(sizes) <= goal else "not met"
    print(ROW.format("P5", "its size, tagged", "", "", median, spread, f"≤ {goal:g}", said))


def _said(value: float, goal: float) -> str:
    if value <= goal:
        return "met"
    return "not met, but within 15 %" if value <= goal * SLACK else "NOT MET"


def _short(ratio: float) -> str:
    return f"{ratio:.0f}" if ratio >= 20 else f"{ratio:.2f}"


def _time(seconds: float) -> str:
    for unit, size in (("s", 1.0), ("ms", 1e-3)):
        if seconds >= size:
            return f"{seconds / size:.2f} {unit}"
    return f"{seconds * 1e6:.2f} µs"


if __name__ == "__main__":
    main()
