"""``manage.py make_groups``: the groups counter, machinist and manager, with their rights."""

from django.core.management.base import BaseCommand

from staff.accounts import services


class Command(BaseCommand):
    """Run after every migrate; harmless to repeat."""

    help = "Make the groups counter, machinist and manager and give each its permissions."

    def handle(self, **options: object) -> None:
        services.make_groups()
