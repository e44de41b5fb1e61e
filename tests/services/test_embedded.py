"""The default: SQLite and a thread, no server besides ours. Real processes, real kill -9."""

from __future__ import annotations

import json
import re
import sqlite3
import subprocess
import sys
import time
import urllib.request
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.servers import Server, free_port, listens, wait_for
from tests.services.conftest import ROOT, clean_environment
from tests.services.test_compose import demo_body

pytestmark = pytest.mark.worker
STARTED = "Work for later is done in a thread here"


class Shop:
    """A newcomer's site: an empty SQLite file, and the commands of ``make run``."""

    def __init__(self, folder: Path) -> None:
        self.folder, self.port = folder, free_port()
        self.file = folder / "shop.sqlite3"
        self.env = clean_environment(
            DATABASE_URL=f"sqlite:///{self.file}", DEBUG="1", JOB_LEASE_SECONDS="3"
        )
        self.started: list[Server] = []

    def manage(self, *words: str) -> str:
        done = subprocess.run(
            [sys.executable, "manage.py", *words],
            env=self.env, cwd=ROOT, capture_output=True, text=True, check=False,
        )  # fmt: skip
        assert done.returncode == 0, done.stdout + done.stderr
        return done.stdout

    def serve(self, *command: str) -> Server:
        log = self.folder / f"web-{len(self.started)}.log"
        server = Server([sys.executable, *command], log=log, cwd=ROOT, env=self.env)
        self.started.append(server)
        wait_for(lambda: listens(self.port), what=str(server))
        return server

    def runserver(self) -> Server:
        return self.serve("manage.py", "runserver", f"127.0.0.1:{self.port}")

    def gunicorn(self) -> Server:
        where = f"--bind=127.0.0.1:{self.port}"
        return self.serve("-m", "gunicorn", "tests.services.wsgi", where)

    def sql(self, statement: str, *values: object) -> list[tuple[object, ...]]:
        with sqlite3.connect(self.file, timeout=10) as database:
            return database.execute(statement, values).fetchall()

    def get(self, path: str) -> bytes:
        with urllib.request.urlopen(f"http://127.0.0.1:{self.port}{path}", timeout=10) as answer:
            return bytes(answer.read())


@pytest.fixture
def shop(tmp_path: Path) -> Iterator[Shop]:
    shop = Shop(tmp_path)
    shop.manage("migrate", "-v", "0")
    yield shop
    for server in shop.started:
        server.kill()


def test_a_newcomer_sees_a_shop(shop: Shop) -> None:
    said = shop.manage("load_demo", "--port", str(shop.port))
    assert all(word in said for word in ("maud", "percival", "fairgap-demo", f":{shop.port}/desk/"))
    rows = "SELECT (SELECT count(*) FROM intake_submission), (SELECT count(*) FROM auth_user)"
    before = shop.sql(rows)
    shop.manage("load_demo")  # the second start finds everything there
    assert shop.sql(rows) == before
    assert before[0][1] == 4

    shop.runserver()
    addresses = re.findall(r"http://127\.0\.0\.1:\d+(/\S*)", said)
    assert len(addresses) == 4
    for address in addresses:
        assert b"<html" in shop.get(address)

    request = urllib.request.Request(
        f"http://127.0.0.1:{shop.port}/api/v1/submissions/",
        data=json.dumps(demo_body("S01")).encode(),
        headers={"Content-Type": "application/json"},
    )
    with urllib.request.urlopen(request, timeout=10) as answer:
        link = json.load(answer)["link"]
    path = re.sub(r"^https?://[^/]+", "", link)
    wait_for(lambda: re.search(rb"quote-\d+\.pdf", shop.get(path)), what="the quote")


def test_the_demo_shop_stays_out_of_production(shop: Shop) -> None:
    shop.env["DEBUG"] = "0"
    with pytest.raises(AssertionError, match="DEBUG=1"):
        shop.manage("load_demo")


def test_the_server_is_killed_in_mid_job(shop: Shop) -> None:
    diary = shop.folder / "diary"
    payload = json.dumps({"diary": str(diary), "seconds": 3.0, "name": "mark"})
    shop.sql(
        "INSERT INTO intake_job (kind, payload, key, due, lease_token, attempts, dead, error,"
        " created_at) VALUES ('slow-mark', ?, 'k', '2026-01-01', '', 0, 0, '', '2026-01-01')",
        payload,
    )
    first = shop.gunicorn()
    wait_for(diary.exists, what="the first start")
    first.kill()
    shop.gunicorn()
    # A new shop also asks for its daily work, which is none of this test's business.
    done = "SELECT count(*) FROM intake_job WHERE kind = 'slow-mark' AND done_at IS NOT NULL"
    wait_for(lambda: shop.sql(done) == [(1,)], what="the job", seconds=60.0)
    assert len(diary.read_text().split()) == 2
    assert shop.sql("SELECT count(*) FROM auth_group WHERE name = 'mark'") == [(1,)]


def test_the_reloader_starts_one_thread_not_two(shop: Shop) -> None:
    """runserver is two processes; only the one that serves may work."""
    server = shop.runserver()
    wait_for(lambda: STARTED in server.said(), what="the job thread")
    time.sleep(1)
    assert server.said().count(STARTED) == 1
