"""The quotes room: prices, papers, what customers accept."""

from __future__ import annotations

from django.apps import AppConfig


class QuotesConfig(AppConfig):
    name = "quotes"
    default_auto_field = "django.db.models.BigAutoField"

    def ready(self) -> None:
        """Listen to intake, and say how its quotes are made."""
        from quotes import check_pages, handlers, receivers  # noqa: F401
        from quotes.choosing import handlers as choosing  # noqa: F401
        from quotes.insight import handlers as insight  # noqa: F401
        from quotes.insight.alarms import handlers as cause_alarms  # noqa: F401
        from quotes.insight.audit import handlers as audit  # noqa: F401
        from quotes.links import handlers as mails  # noqa: F401
        from quotes.outcomes import handlers as outcomes  # noqa: F401
        from quotes.privacy import receivers as privacy  # noqa: F401
        from quotes.rate_sets import system_checks  # noqa: F401
        from quotes.receiving import receivers as receiving  # noqa: F401
        from quotes.replay import handlers as replays  # noqa: F401
        from quotes.shop import handlers as shop  # noqa: F401
        from quotes.stock import receivers as stock  # noqa: F401
        from quotes.today import found  # noqa: F401
        from quotes.touched import receivers as touched  # noqa: F401
