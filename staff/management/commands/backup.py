"""``manage.py backup``: everything in one file, while the site runs."""

from __future__ import annotations

from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError
from django.db import connection

from staff.backup.archive import read_manifest
from staff.backup.errors import BackupError
from staff.backup.services import backup


class Command(BaseCommand):
    """Safe at any time; the file is there whole, or not at all."""

    help = "Write a backup of everything (customers, photos, papers) into one file."
    requires_system_checks: list[str] = []

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument(
            "--to", type=Path, default=Path(settings.BACKUP_FOLDER), metavar="FOLDER"
        )
        parser.add_argument(
            "--keep", type=int, default=settings.BACKUP_KEEP, help="how many of the newest stay"
        )

    def handle(self, **options: Any) -> None:
        if options["keep"] < 1:
            raise CommandError("At least one backup must be kept: --keep 1 or more.")
        try:
            made = backup(connection, folder=options["to"], keep=options["keep"])
        except BackupError as error:
            raise CommandError(str(error)) from None
        rows = sum(read_manifest(made).counts.values())
        self.stdout.write(f"{made}\n{rows} rows, {made.stat().st_size / 1e6:.1f} MB")
