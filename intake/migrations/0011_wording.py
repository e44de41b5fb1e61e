"""Words of questions."""

from __future__ import annotations

from typing import Any, ClassVar

from django.db import migrations


class Migration(migrations.Migration):
    dependencies: ClassVar[list[Any]] = [("intake", "0010_calling")]

    operations: ClassVar[list[Any]] = []
