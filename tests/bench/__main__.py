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

from tests.bench import measures, pages
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
    within: float = 0  # seconds that ours may take, besides; 0: as long as it likes


@dataclass(frozen=True, slots=True)
class Options:
    pairs: int
    db: str
    only: frozenset[str]
    crowd: int


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
    with _engines(options) as engines:
        for figure in [*_on_each(engines), *FIGURES]:
            if figure.name in options.only:
                _show(figure, options.pairs)
        if options.crowd:
            for engine, url in engines.items():
                _show_crowd(options, engine, url)
    if "P5" in options.only:
        _show_sizes()
    print(f"\n{time.monotonic() - start:.0f} s. Time it on a quiet machine.")


def _options() -> Options:
    parser = argparse.ArgumentParser(prog="python -m tests.bench", description=__doc__)
    parser.add_argument("--pairs", type=int, default=PAIRS, help="pairs for each ratio")
    parser.add_argument("--db", choices=["sqlite", "postgres", "both"], default="both")
    every = ["P1", "P2", "P3", "P4", "P5", "P10"]
    parser.add_argument("--only", nargs="+", default=every, metavar="P")
    what = f"P6 too: lists among so many requests ({pages.MANY} unless told); takes minutes"
    parser.add_argument("--crowd", nargs="?", type=int, const=pages.MANY, default=0, help=what)
    given = parser.parse_args()
    crowd = given.crowd or (pages.MANY if "P6" in given.only else 0)
    return Options(given.pairs, given.db, frozenset(given.only), crowd)


@contextmanager
def _engines(options: Options) -> Iterator[dict[str, str]]:
    """The engines asked for and where each is; PostgreSQL runs for as long."""
    found = {} if options.db == "postgres" else {"SQLite": ""}
    if options.db == "sqlite" or not (options.crowd or options.only & {"P1", "P4"}):
        yield found
        return
    with tempfile.TemporaryDirectory(prefix="fairgap-bench-") as folder:
        server, url = start_postgres(Path(folder))
        try:
            yield found | {"PostgreSQL": url}
        finally:
            server.stop()


def _on_each(engines: dict[str, str]) -> Iterator[Figure]:
    for engine, url in engines.items():
        goal = 0.9 if engine == "SQLite" else 0.5
        what = f"POST submissions/ ÷ 1 + 20 rows unchecked, {engine}"
        yield Figure("P1", what, goal, partial(measures.submissions, database_url=url))
    for engine, url in engines.items():
        what = f"one box kept, p95 of 4 clerks ÷ bare view, {engine}"
        yield Figure("P4", what, 12, partial(measures.typing, database_url=url), within=0.05)


def _show_crowd(options: Options, engine: str, url: str) -> None:
    """P6, page by page."""
    start = time.monotonic()
    with (
        tempfile.TemporaryDirectory(prefix="fairgap-bench-") as folder,
        pages.two_shops(Path(folder), options.crowd, url) as shops,
    ):
        print(f"\n{engine}: {options.crowd} requests in {time.monotonic() - start:.0f} s.")
        for words, _name, _asked in pages.PAGES:
            measure = partial(pages.page, shops=shops, words=words)
            _show(Figure("P6", f"{words}: many ÷ {pages.FEW}", 1.5, measure), options.pairs)


def _show(figure: Figure, pairs: int) -> None:
    try:
        ratio = figure.measure(pairs)
    except Exception as error:  # the other figures still tell something
        print(f"{figure.name:4} {figure.what:52} could not run: {error}")
        return
    times = _time(ratio.floor), _time(ratio.ours)
    spread = f"{_short(ratio.low)}–{_short(ratio.high)}"
    goal, said = f"≤ {figure.goal:g}", _said(ratio.value, figure.goal)
    if figure.within:
        slow = ratio.ours > figure.within
        goal += f", {_time(figure.within)}"
        said += f"; {'TOO SLOW' if slow else 'in time'}"
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
