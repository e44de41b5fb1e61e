"""``manage.py load_demo``: the demo shop. Only where DEBUG is on; quick the second time."""

from __future__ import annotations

import json
from argparse import ArgumentParser
from importlib.resources import files

from django.conf import settings
from django.contrib.auth.models import User
from django.core.management.base import BaseCommand, CommandError

from catalog.selectors import stock
from catalog.services import load_catalog
from intake.jobs import drain
from intake.services import receive_submission
from quotes.demo.season.services import load_season
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
        parser.add_argument("--season", action="store_true", help="eighteen months of it, too")
        parser.add_argument("--requests", type=int, default=3000, help="how many the season has")
        parser.add_argument("--seed", type=int, default=1, help="another seed, another season")

    def handle(
        self, *, port: str, season: bool, requests: int, seed: int, **options: object
    ) -> None:
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
        if season:
            self._season(seed, requests, people)
        if not settings.REDIS_URL:
            drain()
        self.stdout.write(WELCOME.format(password=PASSWORD, port=port))

    def _season(self, seed: int, requests: int, people: dict[str, User]) -> None:
        done = load_season(seed=seed, how_many=requests, by=people)
        told = f"{done} requests of the last eighteen months." if done else "It was there already."
        self.stdout.write(f"The season: {told}")
