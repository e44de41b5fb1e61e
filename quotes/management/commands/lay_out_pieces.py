"""``manage.py lay_out_pieces``: a shop that only counted its bars begins to list them."""

from __future__ import annotations

from django.core.management.base import BaseCommand

from quotes.stock.services import lay_out


class Command(BaseCommand):
    """Bars and blanks become pieces of the catalogue's stock length, heat and place not known."""

    help = "List bars and blanks that were only counted as pieces, heat not known. Safe to repeat."

    def handle(self, **options: object) -> None:
        made = lay_out()
        said = f"{made} pieces are listed now, heat and place not known: correct them in the rack."
        self.stdout.write(said if made else "Every bar and blank is listed already.")
