"""The documented run of the season: ``python -m tests.bench.season [--sheets N] [--write]``.

``--write`` puts the report into SEASON.md, below what the model is. Needs no database.
"""

from __future__ import annotations

import sys
from argparse import ArgumentParser
from multiprocessing import cpu_count
from pathlib import Path
from time import perf_counter

from intake.management.commands.simulate import season
from intake.season.report import report

PAGE = Path(__file__).with_name("SEASON.md")
MARK = "<!-- below: written by python -m tests.bench.season --write -->"
SEED = 20261125


def run(sheets: int, processes: int) -> str:
    """The report of a season with the documented seed, and how long it took (to stderr)."""
    before = perf_counter()
    text = report(season(seed=SEED, sheets=sheets, processes=processes), seed=SEED, sheets=sheets)
    print(f"{sheets} sheets in {perf_counter() - before:.0f} s", file=sys.stderr)
    return text


def with_report(page: str, text: str) -> str:
    """The page with its report replaced."""
    model, mark, _old = page.partition(MARK)
    if not mark:
        raise ValueError(f"{PAGE.name} has lost its mark")
    return f"{model}{MARK}\n\n```text\n{text}```\n"


def main() -> None:
    parser = ArgumentParser(description=__doc__)
    parser.add_argument("--sheets", type=int, default=100_000)
    parser.add_argument("--processes", type=int, default=cpu_count())
    parser.add_argument("--write", action="store_true", help="into SEASON.md")
    chosen = parser.parse_args()
    text = run(chosen.sheets, chosen.processes)
    if chosen.write:
        PAGE.write_text(with_report(PAGE.read_text("utf-8"), text), "utf-8")
    print(text)


if __name__ == "__main__":
    main()
