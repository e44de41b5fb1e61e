"""``manage.py index_requests``: write every line that requests are found by anew."""

from __future__ import annotations

from typing import Any

from django.core.management.base import BaseCommand

from intake.finding.services import index_all


class Command(BaseCommand):
    """Chunk by chunk, with a breath between two: the counter goes on working."""

    help = "Make the lines by which requests are listed and found anew, from what is stored."

    def handle(self, **_options: Any) -> None:
        done = 0
        for done in index_all():
            if done % 5000 == 0:
                self.stdout.write(f"{done} requests")
        self.stdout.write(f"{done} requests are indexed")
