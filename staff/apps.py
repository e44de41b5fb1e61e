"""The room's name for Django."""

from django.apps import AppConfig


class StaffConfig(AppConfig):
    """Who works here, what they may do, and who changed what."""

    name = "staff"

    def ready(self) -> None:
        from staff import receivers  # noqa: F401  (they register themselves)
