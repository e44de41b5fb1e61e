"""``manage.py restore FILE``: a backup comes back, into an empty database or over another."""

from __future__ import annotations

from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError
from django.db import connection

from staff.backup.errors import BackupError
from staff.backup.services import restore

WORD = "overwrite"


class Command(BaseCommand):
    """The site must be stopped. Everything is proved before anything is replaced."""

    help = "Put a backup back. Stop the site first."
    requires_system_checks: list[str] = []

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("file", type=Path)
        parser.add_argument(
            "--over", action="store_true", help=f'replace what stands there; asks for "{WORD}"'
        )

    def handle(self, **options: Any) -> None:
        if options["over"]:
            self._ask()
        try:
            done = restore(
                connection,
                path=options["file"],
                folder=Path(settings.BACKUP_FOLDER),
                over=options["over"],
            )
        except BackupError as error:
            raise CommandError(str(error)) from None
        rows = sum(done.manifest.counts.values())
        self.stdout.write(f"Restored: {rows} rows, as they were at {done.manifest.made_at}.")
        if done.before:
            self.stdout.write(f"What stood there before is kept in {done.before}.")
        if done.migrated:
            self.stdout.write("It was made by an older version; the database was migrated.")

    def _ask(self) -> None:
        name = connection.settings_dict["NAME"]
        self.stdout.write(
            f"Everything in {name} will be replaced. Type {WORD} to go on: ", ending=""
        )
        self.stdout.flush()
        try:
            typed = input()
        except EOFError:
            typed = ""
        if typed.strip() != WORD:
            raise CommandError(f'"{WORD}" was not typed. Nothing was restored.')
