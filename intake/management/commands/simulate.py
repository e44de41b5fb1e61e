"""``manage.py simulate``: a virtual season of customers, played against three desks."""

from __future__ import annotations

from argparse import ArgumentParser
from concurrent.futures import ProcessPoolExecutor
from functools import cache
from importlib.resources import files
from json import dumps
from multiprocessing import cpu_count, get_context
from pathlib import Path

from django.core.management.base import BaseCommand

from catalog.domain.stock import Stock
from catalog.tables import read_parts
from intake.season.play import play
from intake.season.report import as_json, report
from intake.season.tally import Tally

PART = 500  # sheets a process takes at a time


@cache
def shipped_stock() -> Stock:
    """The demo catalogue, read from the package: the season needs no database."""
    text = files("catalog").joinpath("data/demo_catalog.csv").read_text("utf-8")
    return Stock(tuple(read_parts(text)), 1)


def _part(seed: int, first: int, last: int) -> Tally:
    return play(seed, first, last, shipped_stock())


def season(*, seed: int, sheets: int, processes: int) -> Tally:
    """Play a season on several processes; how many makes no difference to what comes out."""
    starts = range(0, sheets, PART)
    whole = Tally()
    with ProcessPoolExecutor(processes, mp_context=get_context("spawn")) as pool:
        ends = [min(start + PART, sheets) for start in starts]
        for part in pool.map(_part, [seed] * len(ends), starts, ends):
            whole.add_all(part)
    return whole


class Command(BaseCommand):
    """Wrong shafts, catches, questions and honesty of the probabilities, with intervals."""

    help = "Play a virtual season of customers against three desks and report what came of it."
    requires_system_checks = []

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--sheets", type=int, default=100_000, help="how many customers")
        parser.add_argument("--seed", type=int, default=20261125, help="repeats exactly")
        parser.add_argument("--processes", type=int, default=cpu_count(), help="at a time")
        parser.add_argument("--json", type=Path, help="a file for every count")

    def handle(
        self, *, sheets: int, seed: int, processes: int, json: Path | None, **_: object
    ) -> None:
        tally = season(seed=seed, sheets=sheets, processes=processes)
        self.stdout.write(report(tally, seed=seed, sheets=sheets))
        if json:
            json.write_text(dumps(as_json(tally, seed=seed, sheets=sheets), indent=1), "utf-8")
