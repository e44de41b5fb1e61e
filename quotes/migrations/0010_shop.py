"""What was made and sent."""

from __future__ import annotations

from typing import Any, ClassVar

from django.db import migrations


class Migration(migrations.Migration):
    dependencies: ClassVar[list[Any]] = [("quotes", "0009_stock")]

    operations: ClassVar[list[Any]] = []
