"""The room's name for Django."""

from django.apps import AppConfig


class QuotesConfig(AppConfig):
    """Prices, papers, the shop."""

    name = "quotes"
