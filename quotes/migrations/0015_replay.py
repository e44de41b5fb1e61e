"""Replays of a season."""

from __future__ import annotations

from typing import Any, ClassVar

from django.db import migrations


class Migration(migrations.Migration):
    dependencies: ClassVar[list[Any]] = [("quotes", "0014_cost_model")]

    operations: ClassVar[list[Any]] = []
