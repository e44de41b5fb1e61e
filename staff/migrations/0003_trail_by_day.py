"""The trail, read by day."""

from __future__ import annotations

from typing import Any, ClassVar

from django.db import migrations


class Migration(migrations.Migration):
    dependencies: ClassVar[list[Any]] = [("staff", "0002_accounts")]

    operations: ClassVar[list[Any]] = []
