"""P4: the desk's answer to one changed box, over a bare view, while four clerks type at once.

``python -m tests.bench.clerks ROUNDS`` prints a Ratio as JSON. The site runs as in production (two
processes of four threads) on a new database; what is compared is the slowest of twenty answers
(the 95th of a hundred) of each round.
"""

from __future__ import annotations

import http.client
import json
import os
import statistics
import sys
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any
from urllib.parse import urlencode

from tests.bench.timing import PAIRS, Ratio
from tests.servers import Server, free_port, wait_for

ROOT = Path(__file__).resolve().parents[2]
CLERKS, ANSWERS = 4, 10  # answers of one clerk in one round
GAPS = ("3/4", "13/16", "11/16", "7/8")
_SECRET = "c" * 32  # of the form's hidden token, the same in the cookie


@dataclass
class Clerk:
    """One person at one call, with a connection of their own."""

    port: int
    session: str
    number: int
    boxes: dict[str, Any]
    seen: int = 0
    turn: int = 0

    def __post_init__(self) -> None:
        self.line = http.client.HTTPConnection("127.0.0.1", self.port, timeout=30)
        self.boxes["answers.boat_name_and_station.name"] = f"Bench {self.number}"
        self.boxes["wants"] = ",".join(self.boxes["wants"])
        self._keep(list(self.boxes))

    def type_a_gap(self) -> None:
        """Change one box and have it kept and judged."""
        self.turn += 1
        self.boxes["answers.gap_now.text"] = GAPS[self.turn % len(GAPS)]
        self._keep(["answers.gap_now.text"])

    def look_at_nothing(self) -> None:
        """The bare view."""
        self._send("GET", "/bare/", "")

    def _keep(self, changed: list[str]) -> None:
        told = {**self.boxes, "wants": self.boxes["wants"].split(",")}
        told |= {"seen": str(self.seen), "changed": " ".join(changed)}
        address = f"/desk/call/bench-of-clerk-number-{self.number}/keep/"
        heard = self._send("POST", address, urlencode(told, doseq=True))
        kept = json.loads(heard.headers["HX-Trigger"])["desk:kept"]
        if kept["conflicts"] or kept["revision"] <= self.seen:
            raise RuntimeError(f"nothing was kept: {kept}")
        self.seen = kept["revision"]

    def _send(self, method: str, address: str, body: str) -> http.client.HTTPResponse:
        cookies = f"sessionid={self.session}; csrftoken={_SECRET}"
        headers = {
            "Cookie": cookies,
            "X-CSRFToken": _SECRET,
            "HX-Request": "true",
            "Content-Type": "application/x-www-form-urlencoded",
        }
        self.line.request(method, address, body or None, headers)
        answer = self.line.getresponse()
        content = answer.read()
        if answer.status != 200:
            raise RuntimeError(f"{address} answered {answer.status}: {content[:300]!r}")
        return answer


def measure(clerks: list[Clerk], rounds: int) -> Ratio:
    """The two in turns, all clerks at once; ratios of their 95th percentiles."""
    _all_at_once(clerks, Clerk.type_a_gap)  # what is built once is built now
    taken = [
        (_all_at_once(clerks, Clerk.look_at_nothing), _all_at_once(clerks, Clerk.type_a_gap))
        for _round in range(rounds)
    ]
    ratios = [ours / floor for floor, ours in taken]
    return Ratio(
        value=statistics.median(ratios),
        low=min(ratios),
        high=max(ratios),
        ours=statistics.median(ours for _, ours in taken),
        floor=statistics.median(floor for floor, _ in taken),
    )


def _all_at_once(clerks: list[Clerk], do: Callable[[Clerk], None]) -> float:
    """The 95th percentile, in seconds, of everybody doing it again and again."""
    times: list[float] = []
    failed: list[BaseException] = []
    start = threading.Barrier(len(clerks))

    def work(clerk: Clerk) -> None:
        try:
            start.wait()
            for _answer in range(ANSWERS):
                began = time.perf_counter()
                do(clerk)
                times.append(time.perf_counter() - began)
        except BaseException as error:
            failed.append(error)

    threads = [threading.Thread(target=work, args=[clerk]) for clerk in clerks]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    if failed:
        raise failed[0]
    return statistics.quantiles(times, n=20)[-1]


@contextmanager
def the_site() -> Iterator[list[Clerk]]:
    """Production's server on a new database, and four clerks logged in."""
    from tests.bench.submissions import a_shop

    with a_shop():
        from tests.intake.desk_given import a_call

        sessions = _log_in()
        port, folder = free_port(), Path(os.environ["FAIRGAP_BENCH_FOLDER"])
        command = [
            *(sys.executable, "-m", "gunicorn", "config.wsgi", f"--bind=127.0.0.1:{port}"),
            *("--workers=2", "--threads=4", "--keep-alive=75"),  # as a proxy in front holds them
        ]
        ours = {"DATABASE_URL": _database_url(), "DJANGO_SETTINGS_MODULE": "tests.bench.settings"}
        server = Server(command, log=folder / "site.log", cwd=ROOT, env=dict(os.environ) | ours)
        try:
            wait_for(lambda: "Booting worker" in server.said(), what=server.said())
            yield [Clerk(port, session, at, a_call()) for at, session in enumerate(sessions)]
        except BaseException:
            print(server.said()[-3000:], file=sys.stderr)
            raise
        finally:
            server.stop()


def _log_in() -> list[str]:
    from django.contrib.auth.models import Group, User
    from django.test import Client

    from staff.accounts.services import make_groups

    make_groups()
    sessions = []
    for number in range(CLERKS):
        person = User.objects.create_user(f"clerk{number}")
        person.groups.set(Group.objects.filter(name="counter"))
        client = Client()
        client.force_login(person)
        sessions.append(client.cookies["sessionid"].value)
    return sessions


def _database_url() -> str:
    from django.db import connection

    at = connection.settings_dict
    if connection.vendor == "sqlite":
        return f"sqlite:///{at['NAME']}"
    return f"postgres://{at['USER']}@{at['HOST']}:{at['PORT']}/{at['NAME']}"


if __name__ == "__main__":
    with the_site() as clerks:
        print(json.dumps(asdict(measure(clerks, int(sys.argv[1]) if sys.argv[1:] else PAIRS))))
