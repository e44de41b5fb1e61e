"""The room's name for Django."""

from django.apps import AppConfig


class CatalogConfig(AppConfig):
    """What we stock."""

    name = "catalog"
