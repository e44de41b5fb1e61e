"""P6: a page of a shop with many requests over the same page of a shop with a hundred.

``python -m tests.bench.pages NUMBER`` is one shop in a process of its own, on a new database where
``DATABASE_URL`` says: it prints the addresses it has, then answers each line with one page. Two of
them side by side are asked in turns.
"""

from __future__ import annotations

import json
import os
import subprocess
import sys
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any

from tests.bench.timing import Ratio, compare

ROOT = Path(__file__).resolve().parents[2]
FEW, MANY = 100, 100_000
# Words, the page's name, what is asked of it. ``{one}`` is a request of the newest hundred.
PAGES = (
    ("call-backs", "call-queue", ""),
    ("the day", "today", ""),
    ("requests", "requests", ""),
    ("requests, one word", "requests", "?q=heron"),
    ("requests, one of them", "requests", "?q={one}"),
    ("requests, a filter", "requests", "?status=needs_call"),
    ("requests, word, filter, order", "requests", "?q=heron&status=quoted&sort=oldest"),
    ("requests, longest wait", "requests", "?sort=waiting"),
    ("found while typing", "desk-find", "?q=tarp"),
    ("found, misheard", "desk-find", "?q=muddlewik"),
    ("customers", "customers", ""),
    ("customers, a name", "customers", "?q=tarpley"),
    ("the day's quotes", "quotes-today", ""),
    ("shafts to make", "shop", ""),
    ("bars for them", "bars", ""),
    ("to be ordered", "reorder", ""),
    ("own parts awaited", "awaited-parts", ""),
    ("nothing heard", "silent", ""),
    ("cases", "cases", ""),
    ("cases, a cause wanted", "cases", "?show=cause"),
    ("cases, closed", "cases", "?show=closed"),
    ("invoices", "invoices", ""),
    ("the rack", "pieces", ""),
    ("gone from the rack", "pieces", "?show=gone"),
    ("prices", "prices", ""),
    ("rates", "rates", ""),
)


class Shop:
    """One shop in its own process."""

    def __init__(self, number: int, folder: Path, database_url: str) -> None:
        folder.mkdir()
        where = database_url or f"sqlite:///{folder}/empty.sqlite3"
        ours = {"DATABASE_URL": where, "FAIRGAP_BENCH_FOLDER": str(folder)}
        kept = {name: value for name, value in os.environ.items() if name != "REDIS_URL"}
        self.process = subprocess.Popen(
            [sys.executable, "-m", "tests.bench.pages", str(number)],
            stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, bufsize=1, cwd=ROOT,
            env=kept | {"SECRET_KEY": "the-bench-keeps-no-secrets", "HTTPS": "false"} | ours,
        )  # fmt: skip
        self.addresses: dict[str, str] = {}

    def open(self) -> None:
        """Wait until it is filled, and learn its addresses; empty where there is no such page."""
        self.addresses = json.loads(self._heard())

    def get(self, words: str) -> int:
        """Ask for one page; how many bytes it has."""
        assert self.process.stdin is not None
        self.process.stdin.write(self.addresses[words] + "\n")
        return int(self._heard())

    def _heard(self) -> str:
        assert self.process.stdout is not None
        line = self.process.stdout.readline()
        if not line:
            raise RuntimeError("a shop of the bench ended; what it said stands above")
        return line

    def close(self) -> None:
        """End it; its database goes with it."""
        assert self.process.stdin is not None
        assert self.process.stdout is not None
        with suppress(BrokenPipeError):  # it ended by itself, and has said why
            self.process.stdin.close()
        self.process.wait()
        self.process.stdout.close()


@contextmanager
def two_shops(folder: Path, many: int, database_url: str = "") -> Iterator[tuple[Shop, Shop]]:
    """A shop of a hundred requests and a shop of many, filled at the same time."""
    shops = (Shop(FEW, folder / "few", database_url), Shop(many, folder / "many", database_url))
    try:
        for shop in shops:
            shop.open()
        yield shops
    finally:
        for shop in shops:
            shop.close()


def page(pairs: int, *, shops: tuple[Shop, Shop], words: str) -> Ratio:
    """The same page of both, in turns."""
    few, many = shops
    if not few.addresses[words]:
        raise LookupError("there is no such page yet")
    return compare(lambda: many.get(words), lambda: few.get(words), pairs=pairs, calls=2)


# --- The shop's own process ---------------------------------------------------------------


def main() -> None:
    """Fill, say the addresses, then answer."""
    from tests.bench.submissions import a_shop

    with a_shop():
        client, one = _filled(int(sys.argv[1]))
        print(json.dumps(_addresses(one)), flush=True)
        for line in sys.stdin:
            answer = client.get(line.strip())
            if answer.status_code != 200:
                raise RuntimeError(f"{line.strip()} answered {answer.status_code}")
            print(len(answer.content), flush=True)


def _filled(number: int) -> tuple[Any, str]:
    from django.contrib.auth.models import Group, User
    from django.test import Client

    from staff.accounts.services import make_groups
    from tests.bench import crowd

    make_groups()
    maud = User.objects.create_user("maud")
    maud.groups.set(Group.objects.filter(name__in=("counter", "machinist", "manager")))
    one = crowd.make(number, maud)
    client = Client(SERVER_NAME="127.0.0.1")
    client.force_login(maud)
    return client, one


def _addresses(one: str) -> dict[str, str]:
    from django.urls import NoReverseMatch, reverse

    found = {}
    for words, name, asked in PAGES:
        try:
            found[words] = reverse(name) + asked.format(one=one)
        except NoReverseMatch:
            found[words] = ""
    return found


if __name__ == "__main__":
    main()
