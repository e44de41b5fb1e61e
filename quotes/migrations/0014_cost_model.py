"""Costs and targets."""

from __future__ import annotations

from typing import Any, ClassVar

from django.db import migrations


class Migration(migrations.Migration):
    dependencies: ClassVar[list[Any]] = [("quotes", "0013_insight")]

    operations: ClassVar[list[Any]] = []
