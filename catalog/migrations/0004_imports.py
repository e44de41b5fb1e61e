"""Imported tables."""

from __future__ import annotations

from typing import Any, ClassVar

from django.db import migrations


class Migration(migrations.Migration):
    dependencies: ClassVar[list[Any]] = [("catalog", "0003_pieces")]

    operations: ClassVar[list[Any]] = []
