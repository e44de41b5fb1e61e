"""``manage.py forget_photos FG-ABC234``: delete a request's photos, as its owner may ask."""

from __future__ import annotations

from argparse import ArgumentParser
from typing import Any

from django.core.management.base import BaseCommand, CommandError

from intake.models import Submission
from intake.photos.services import forget_photos
from intake.selectors import by_reference


class Command(BaseCommand):
    """They are gone for good, but for older backups."""

    help = "Delete all photos of one submission for good."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("reference", help="the submission's reference, like FG-ABC234")

    def handle(self, *, reference: str, **_options: Any) -> None:
        try:
            submission = by_reference(reference)
        except Submission.DoesNotExist:
            raise CommandError(f"There is no submission {reference}.") from None
        self.stdout.write(f"{forget_photos(submission=submission)} photos deleted")
