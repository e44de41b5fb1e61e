"""``manage.py count_season``: the manager's numbers made anew from every record there is."""

from __future__ import annotations

from django.core.management.base import BaseCommand

from quotes.insight.keeping.services import count_everything


class Command(BaseCommand):
    """Facts and counts of every request; safe to repeat, at any time."""

    help = "Make the manager's numbers anew from every record there is."

    def handle(self, **options: object) -> None:
        done = count_everything()
        self.stdout.write(f"{done} requests counted.")
