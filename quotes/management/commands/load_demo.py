"""``manage.py load_demo``: the demo shop. Only where DEBUG is on; quick the second time."""

from __future__ import annotations

import json
from argparse import ArgumentParser
from importlib.resources import files

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError

from catalog.selectors import stock
from catalog.services import load_catalog
from intake.jobs import drain
from intake.services import receive_submission
from quotes.demo.services import live_on
from quotes.stock.services import lay_out
from staff.accounts import services as staff

PASSWORD = "fairgap-demo"  # noqa: S105  (printed for everybody, and only where DEBUG is on)
PEOPLE = {"maud": "counter", "iolo": "counter", "bronagh": "machinist", "percival": "manager"}
WELCOME = """
The demo shop is ready. Password of everybody: {password}
  counter: maud, iolo · machinist: bronagh · manager: percival

  Measure a boat   http://127.0.0.1:{port}/
  Counter desk     http://127.0.0.1:{port}/desk/
  Shafts to make   http://127.0.0.1:{port}/shop/
  API              http://127.0.0.1:{port}/api/v1/docs/
"""


class Command(BaseCommand):
    """Catalogue, people, requests and some shafts on their way, each only where it is not there."""

    help = "Load the demo shop: catalogue, people, requests. Needs DEBUG. Safe to repeat."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--port", default="8000", help="the port named in the addresses")

    def handle(self, *, port: str, **options: object) -> None:
        if not settings.DEBUG:
            raise CommandError("The demo shop has known passwords: it is loaded only with DEBUG=1.")
        if not stock().parts:  # what stands on the shelf by now is not counted back
            load_catalog(files("catalog").joinpath("data/demo_catalog.csv").read_text("utf-8"))
            lay_out()
        staff.make_groups()
        people = {
            name: staff.make_person(name=name, group=group, password=PASSWORD)
            for name, group in PEOPLE.items()
        }
        for request in json.loads(files("quotes").joinpath("demo/bodies.json").read_text("utf-8")):
            receive_submission(body=request["body"], idempotency_key=f"demo {request['ref']}")
        live_on(bronagh=people["bronagh"], percival=people["percival"])
        if not settings.REDIS_URL:
            drain()
        self.stdout.write(WELCOME.format(password=PASSWORD, port=port))
