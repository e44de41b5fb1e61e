"""``manage.py describe_checks``: the page docs/checks.md, made from the checks themselves."""

from __future__ import annotations

from argparse import ArgumentParser
from pathlib import Path
from typing import Any

from django.conf import settings
from django.core.management.base import BaseCommand, CommandError

from intake.check_book import as_markdown

HOME = Path(settings.BASE_DIR) / "docs" / "checks.md"


class Command(BaseCommand):
    """Run it after a check or a limit in the code has changed; the suite says when it is stale."""

    help = "Write every check with its why, question, limits and source to docs/checks.md."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--check", action="store_true", help="only say whether it is stale")

    def handle(self, *, check: bool, **_options: Any) -> None:
        text = as_markdown()
        if check:
            if not HOME.exists() or HOME.read_text("utf-8") != text:
                raise CommandError("docs/checks.md is stale: run manage.py describe_checks")
            return
        HOME.write_text(text, "utf-8")
        self.stdout.write(f"{HOME.name}: {text.count('### ')} checks")
