"""P1 in a process of its own: ``python -m tests.bench.submissions PAIRS`` prints a Ratio as JSON.

``DATABASE_URL`` says which engine; a new database is made there, and dropped at the end. Both
sides are posted in process through the whole production stack. What a submission leaves to the
job thread (its paper) is not waited for.
"""

from __future__ import annotations

import json
import os
import sys
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import asdict
from importlib.resources import files
from io import BytesIO
from itertools import count
from typing import Any

import django

from tests.bench.timing import PAIRS, Ratio, compare
from tests.given import a_body

OURS, FLOOR = "/api/v1/submissions/", "/floor/"
CALLS = 30  # posts of one sample
_boats = count(1)


class Door:
    """A web server's place: hands a request to Django and reads the answer to its end."""

    def __init__(self) -> None:
        from django.core.wsgi import get_wsgi_application

        self._answer = get_wsgi_application()

    def post(self, path: str) -> bytes:
        """Send a clean sheet of a boat nobody has seen; anything but 201 is an error."""
        body = a_clean_sheet()
        heard: list[str] = []

        def start(status: str, *_: object) -> Callable[[bytes], object]:
            heard.append(status)
            return _ignore

        response = self._answer(_environ(path, body), start)
        content = b"".join(response)
        response.close()
        if not heard[0].startswith("201"):
            raise RuntimeError(f"{path} answered {heard[0]}: {content[:500]!r}")
        return content


def _ignore(_written: bytes) -> None:
    """The protocol's way to write by hand; nobody takes it."""


def a_clean_sheet() -> bytes:
    """A request as it comes over the wire; every one is another boat of somebody new.

    (One person's boats that share every length would be asked about.)
    """
    number = next(_boats)
    boat = {"name": f"Bench {number}", "station": "single"}
    who = {"name": "Wilmot Tarpley", "phone": f"+1 202 555 {number:06}", "role": "owner"}
    return json.dumps(a_body(top={"contact": who}, boat_name_and_station=boat)).encode()


def _environ(path: str, body: bytes) -> dict[str, Any]:
    return {
        "REQUEST_METHOD": "POST",
        "SCRIPT_NAME": "",
        "PATH_INFO": path,
        "QUERY_STRING": "",
        "CONTENT_TYPE": "application/json",
        "CONTENT_LENGTH": str(len(body)),
        "HTTP_HOST": "127.0.0.1",
        "SERVER_NAME": "127.0.0.1",
        "SERVER_PORT": "80",
        "SERVER_PROTOCOL": "HTTP/1.1",
        "REMOTE_ADDR": "127.0.0.1",
        "wsgi.url_scheme": "http",
        "wsgi.input": BytesIO(body),
        "wsgi.errors": sys.stderr,
    }


@contextmanager
def a_shop() -> Iterator[Door]:
    """Django on a new database with the demo catalogue in it."""
    os.environ["DJANGO_SETTINGS_MODULE"] = "tests.bench.settings"
    django.setup()
    from django.db import connection

    from catalog.services import load_catalog

    before = connection.settings_dict["NAME"]
    connection.creation.create_test_db(verbosity=0)
    try:
        load_catalog(files("catalog").joinpath("data/demo_catalog.csv").read_text("utf-8"))
        yield Door()
    finally:
        connection.creation.destroy_test_db(before, verbosity=0)


def measure(door: Door, pairs: int) -> Ratio:
    """POST with all checks, stored, over the floor's."""
    first: Mapping[str, Any] = json.loads(door.post(OURS))
    if first["verdict"] != "release":
        raise RuntimeError(f"the clean sheet is not clean: {first['findings']}")
    return compare(
        lambda: door.post(OURS),
        lambda: door.post(FLOOR),
        pairs=pairs,
        calls=CALLS,
        floor_calls=CALLS,
    )


if __name__ == "__main__":
    with a_shop() as door:
        print(json.dumps(asdict(measure(door, int(sys.argv[1]) if sys.argv[1:] else PAIRS))))
