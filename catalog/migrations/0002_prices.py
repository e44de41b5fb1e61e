"""What a part costs from which day."""

from __future__ import annotations

from typing import Any, ClassVar

from django.db import migrations


class Migration(migrations.Migration):
    dependencies: ClassVar[list[Any]] = [("catalog", "0001_initial")]

    operations: ClassVar[list[Any]] = []
