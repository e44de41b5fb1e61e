"""The intake room: what customers tell us, whether it adds up, whom to call and why."""

from __future__ import annotations

from django.apps import AppConfig


class IntakeConfig(AppConfig):
    name = "intake"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        """Say what the sweep looks after."""
        from intake.calling.alarms import handlers  # noqa: F401
        from intake.customers import handlers as customers  # noqa: F401
        from intake.desk_drafts import chores  # noqa: F401
        from intake.finding import services  # noqa: F401
