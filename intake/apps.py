"""The intake room: what customers tell us, whether it adds up, whom to call and why."""

from __future__ import annotations

from django.apps import AppConfig


class IntakeConfig(AppConfig):
    name = "intake"
    default_auto_field = "django.db.models.BigAutoField"
