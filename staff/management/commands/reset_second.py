"""``manage.py reset_second percival``: for a manager whose phone and codes are both lost."""

from argparse import ArgumentParser

from django.core.management.base import BaseCommand, CommandError

from staff.accounts import selectors
from staff.accounts.services import lose_second


class Command(BaseCommand):
    """Whoever may run this may read the database too: nothing more is asked."""

    help = "Take away a person's second factor and end their logins. It stands in the trail."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("name")

    def handle(self, *, name: str, **options: object) -> None:
        person = selectors.named(name)
        if person is None:
            raise CommandError(f"There is nobody named {name}.")
        if not lose_second(person=person):
            raise CommandError(f"{name} has no second factor.")
        self.stdout.write(f"{name} logs in with the password alone until a new one is set up.")
